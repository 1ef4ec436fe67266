#!/usr/bin/env bash
# A night in the field: the plan says one thing, the count another. What was counted becomes a new
# plan, the difference is read, and the new sheets are printed.
#
#     bash examples/field-night.sh [folder for the results]
source "$(dirname "${BASH_SOURCE[0]}")/own-service.sh"
json=(--header 'Content-Type: application/json')

# await FILE: reads the plan of FILE again until it is final.
await() {
    local plan begin=$SECONDS
    plan=$(read_json "$1" 'd["plan_id"]')
    until [ "$(read_json "$1" 'd["outcome_kind"]')" != None ]; do
        [ $((SECONDS - begin)) -lt 240 ] || { echo "the plan takes too long" >&2; exit 1; }
        sleep 1
        ask "$1" "/v1/plans/$plan"
    done
    [ "$(read_json "$1" 'd["outcome_kind"]')" = solved ] || { echo "there is no plan" >&2; exit 1; }
}

say "1. The plan that was carried by"
ask plan.json /v1/plans "${json[@]}" --header 'Prefer: wait=60' \
    --data-binary "@$repo/examples/smallest-request.json"
await plan.json
plan=$(read_json plan.json 'd["plan_id"]')
ask stock.csv "/v1/plans/$plan/stock.csv"
read_json plan.json '"peak %.1f %% of a cap" % (100 * d["outcome"]["peak"]["load_fraction"])'

say "2. What was counted on the evening of day 2: a storm, and less fuel than planned"
cat "$repo/examples/field-night/counted.json"

say "3. Plan the rest"
ask replan.json "/v1/plans/$plan/replans" "${json[@]}" --header 'Prefer: wait=60' \
    --data-binary "@$repo/examples/field-night/counted.json"
await replan.json
new=$(read_json replan.json 'd["plan_id"]')
read_json replan.json '"\n".join(d["outcome"]["rest"]["say"])'

say "4. What differs from the plan before"
ask difference.json "/v1/plans/$plan/difference?to=$new"
ask difference.csv "/v1/plans/$plan/difference?to=$new" --header 'Accept: text/csv'
read_json difference.json '"%d loads differ, %d figures" % (len(d["loads"]), len(d["figures"]))'

say "5. The history, and the sheets for the days to come"
ask history.json "/v1/plans/$new/history"
read_json history.json '" -> ".join(p["plan_id"] for p in d["plans"])'
ask sheets.html "/v1/plans/$new/pages?paper=a5" --header 'Accept: text/html'
ask old-sheets.html "/v1/plans/$plan/pages?sheet=cover" --header 'Accept: text/html'
grep -o 'SUPERSEDED by plan [a-z0-9_]*' "$out/old-sheets.html"
ls "$out"
echo "Open $out/sheets.html in a browser and print it. Destroy the old sheets."
