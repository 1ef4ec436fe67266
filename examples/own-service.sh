# Sourced by the journeys: sets up what is missing, starts a service of its own on this machine and
# stops it at the end, whatever happens. It gives $url, $out (the folder for results) and:
#
#     ask FILE ADDRESS [curl's options]   the answer goes into $out/FILE; a refusal ends the journey
#     read_json FILE EXPRESSION           prints a Python expression of the JSON in $out/FILE as `d`
#     say WORDS                           a heading

set -eu -o pipefail
source "$(dirname "${BASH_SOURCE[0]}")/../.ci/setup.sh"
python=$venv/bin/python
journey=$(basename "$0" .sh)
out=${1:-$repo/data/$journey}
mkdir -p "$out"
store=$(mktemp -d)
service=

stop() {
    local status=$?
    trap - EXIT INT TERM
    if [ -n "$service" ]; then
        kill "$service" 2>/dev/null || true
        wait "$service" 2>/dev/null || true
    fi
    rm -rf "$store"
    exit "$status"
}
trap stop EXIT
trap 'exit 130' INT
trap 'exit 143' TERM

say() {
    printf '\n%s\n' "$*"
}

ask() {
    local file=$1 address=$2 status
    shift 2
    status=$(curl --silent --show-error --noproxy '*' --max-time 120 --output "$out/$file" \
        --write-out '%{http_code}' "$@" "$url$address")
    if [ "$status" -ge 400 ]; then
        echo "$journey: $address was refused with $status:" >&2
        cat "$out/$file" >&2
        exit 1
    fi
}

read_json() {
    "$python" -c 'import json, sys; d = json.load(open(sys.argv[1])); print(eval(sys.argv[2]))' \
        "$out/$1" "$2"
}

port=$("$python" -c 'import socket; s = socket.create_server(("127.0.0.1", 0)); print(s.getsockname()[1])')
url=http://127.0.0.1:$port
HAULWRIGHT_HOST=127.0.0.1 HAULWRIGHT_PORT=$port HAULWRIGHT_DATABASE=$store/plans.sqlite3 \
    "$python" -m service >"$store/log" 2>&1 &
service=$!
begin=$SECONDS
until curl --silent --noproxy '*' --max-time 5 "$url/readyz" 2>/dev/null | grep -q '"ok"'; do
    kill -0 "$service" 2>/dev/null || { cat "$store/log" >&2; exit 1; }
    [ $((SECONDS - begin)) -lt 90 ] || { echo "$journey: the service is not ready after 90 s" >&2; exit 1; }
    sleep 0.3
done
