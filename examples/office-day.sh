#!/usr/bin/env bash
# A day in the office: a gear list in a workbook and a roster in CSV become a request, the request
# becomes needs, three rosters are compared, one plan is chosen, released and printed.
#
#     bash examples/office-day.sh [folder for the results]
source "$(dirname "${BASH_SOURCE[0]}")/own-service.sh"
files=$repo/examples/office-day
json=(--header 'Content-Type: application/json')

say "1. Read the gear list and the roster"
ask gear.json "/v1/files/gear-list?file=gear-list.xlsx" --data-binary "@$files/gear-list.xlsx" \
    --header 'Content-Type: application/vnd.openxmlformats-officedocument.spreadsheetml.sheet'
ask roster.json "/v1/files/roster?file=roster.csv" --data-binary "@$files/roster.csv" \
    --header 'Content-Type: text/csv'
read_json gear.json '"%d items, %.1f kg" % (len(d["gear"]), d["total_kg"])'
read_json roster.json '"%d people" % len(d["roster"])'

say "2. Put them into a request with route and calendar"
"$python" - "$files" "$out" <<'PY'
import json, sys
files, out = sys.argv[1:]
request = json.load(open(f"{files}/trip.json"))
request["gear"] = json.load(open(f"{out}/gear.json"))["gear"]
request["roster"] = json.load(open(f"{out}/roster.json"))["roster"]
json.dump(request, open(f"{out}/request.json", "w"), indent=1)
comparison = json.load(open(f"{files}/three-rosters.json"))
json.dump({"base": request, **comparison}, open(f"{out}/comparison-asked.json", "w"), indent=1)
PY

say "3. Ask what the trip needs"
ask needs.json /v1/requirements "${json[@]}" --data-binary "@$out/request.json"
read_json needs.json '"%d figures, each with its formula and source" % len(d["figures"])'

say "4. Compare three rosters"
ask comparison.json /v1/comparisons "${json[@]}" --header 'Prefer: wait=60' \
    --data-binary "@$out/comparison-asked.json"
comparison=$(read_json comparison.json 'd["comparison_id"]')
begin=$SECONDS
until [ "$(read_json comparison.json 'd["done"]')" = True ]; do
    [ $((SECONDS - begin)) -lt 240 ] || { echo "the comparison takes too long" >&2; exit 1; }
    sleep 1
    ask comparison.json "/v1/comparisons/$comparison"
done
ask comparison.csv "/v1/comparisons/$comparison?format=csv"
ask comparison.html "/v1/comparisons/$comparison/pages" --header 'Accept: text/html'
read_json comparison.json '"\n".join("%-22s %s" % (r["name"],
    "%.1f %% of a cap" % (100 * r["figures"]["peak"]) if r["figures"]["peak"] else r["figures"]["reason"])
    for r in d["rows"])'

say "5. Choose the lowest peak, and release it (you would read the other figures, too)"
plan=$(read_json comparison.json \
    'min((r for r in d["rows"] if r["figures"]["peak"]), key=lambda r: r["figures"]["peak"])["plan_id"]')
ask release.json "/v1/plans/$plan/release" "${json[@]}" --data '{"released_by": "operations desk"}'
read_json release.json '"released by %s: %s" % (d["released_by"], d["plan_id"])'

say "6. Print it"
ask sheets.html "/v1/plans/$plan/pages?paper=a4" --header 'Accept: text/html'
ask plan.xlsx "/v1/plans/$plan/workbook"
ask packing-list.csv "/v1/plans/$plan/packing-list"
ask purchases.csv "/v1/plans/$plan/purchases.csv"
ask trip.ics "/v1/plans/$plan/calendar"
ls "$out"
echo "Open $out/sheets.html in a browser and print it."
