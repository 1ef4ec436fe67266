#!/usr/bin/env bash
# Starts the service on this machine, asks it for a plan, prints the plan and stops it again.
#
#     bash examples/first-plan.sh [request.json]
#
# Sets up what is missing first. Everything that the service writes goes into a folder that is
# deleted at the end; a failure ends with a message and a status other than 0.
set -u

source "$(dirname "${BASH_SOURCE[0]}")/../.ci/setup.sh" || exit 1
request=${1:-$repo/examples/independent-three.json}
python=$venv/bin/python
service=
asking=

# A step that a signal ended passes that signal's status on, whichever of the two bash sees first.
fail() {
    local status=$?
    echo "first-plan: $*" >&2
    [ "$status" -gt 128 ] && exit "$status"
    exit 1
}

stop_all() {
    trap - EXIT INT TERM HUP
    local process begin=$SECONDS
    for process in $asking $service; do
        kill "$process" 2>/dev/null
    done
    while [ -n "$service" ] && kill -0 "$service" 2>/dev/null; do
        [ $((SECONDS - begin)) -lt 20 ] || kill -KILL "$service" 2>/dev/null
        sleep 0.1
    done
    wait 2>/dev/null
    rm -rf "$folder"
}

[ -f "$request" ] || fail "there is no file $request."
folder=$(mktemp -d) || fail "no temporary folder could be made."
trap stop_all EXIT
trap 'exit 130' INT
trap 'exit 143' TERM
trap 'exit 129' HUP

# ask FILE ADDRESS [BODY]: the answer goes into FILE. It runs in the background, since the shell
# hears a signal only while it waits. Without curl on this machine, Python asks instead.
ask() {
    local file=$1 address=$2 body=${3:-}
    if command -v curl >/dev/null 2>&1; then
        set -- --silent --show-error --noproxy '*' --max-time 120 --output "$file" "$address"
        if [ -n "$body" ]; then
            set -- "$@" --header "Content-Type: application/json" --header "Prefer: wait=60" \
                --data-binary "@$body"
        fi
        curl "$@" &
    else
        "$python" - "$file" "$address" ${body:+"$body"} <<'PY' &
import sys, urllib.error, urllib.request

file, address, *body = sys.argv[1:]
headers = {"Content-Type": "application/json", "Prefer": "wait=60"}
data = open(body[0], "rb").read() if body else None
opener = urllib.request.build_opener(urllib.request.ProxyHandler({}))
try:
    answer = opener.open(urllib.request.Request(address, data, headers), timeout=120)
except urllib.error.HTTPError as refusal:
    answer = refusal
open(file, "wb").write(answer.read())
PY
    fi
    asking=$!
    wait "$asking"
    local status=$?
    asking=
    return $status
}

member() {
    "$python" -c 'import json, sys; print(json.load(open(sys.argv[1])).get(sys.argv[2]) or "")' \
        "$folder/answer.json" "$1"
}

port=$("$python" -c 'import socket; s = socket.create_server(("127.0.0.1", 0)); print(s.getsockname()[1])') ||
    fail "no free port was found."
url=http://127.0.0.1:$port
echo "Starting the service at $url" >&2
env HAULWRIGHT_HOST=127.0.0.1 HAULWRIGHT_PORT="$port" \
    HAULWRIGHT_DATABASE="$folder/plans.sqlite3" \
    "$python" -m service >"$folder/log" 2>&1 &
service=$!
begin=$SECONDS
until ask "$folder/health" "$url/healthz" 2>/dev/null && grep -q '"ok"' "$folder/health"; do
    kill -0 "$service" 2>/dev/null || fail "the service did not start:" "$(tail -n 5 "$folder/log")"
    [ $((SECONDS - begin)) -lt 60 ] || fail "the service is not healthy after 60 s:" \
        "$(tail -n 5 "$folder/log")"
    sleep 0.2
done

echo "Asking for a plan: POST /v1/plans with $request" >&2
ask "$folder/answer.json" "$url/v1/plans" "$request" || fail "the service did not answer."
begin=$SECONDS
while plan_id=$(member plan_id) && [ -n "$plan_id" ] && [ -z "$(member outcome_kind)" ]; do
    [ $((SECONDS - begin)) -lt 300 ] || fail "the plan is still $(member state) after five minutes."
    sleep 1
    ask "$folder/answer.json" "$url/v1/plans/$plan_id" || fail "the service did not answer."
done

echo
"$python" "$repo/examples/print_plan.py" "$folder/answer.json" ||
    fail "there is no plan for $request; the reason stands above."

cat <<EOF

What to do next
---------------
  Start the service for good, with its plans in data/ and its answers on this machine only:
    .venv/bin/python -m service
  Then read and try the API at http://localhost:8000/docs, which needs no internet.
  The API's description for programs: api_schema/openapi.v1.json
  Print sheets with tables and pictures: "Print it" in README.md
  A session with curl, edits checked included: README.md; other requests: examples/
EOF
