#!/usr/bin/env bash
# Proves what the service promises: bash tests/reliability/run.sh jobs|faults|api|contract|image|load|limits|workers|growth [--long]
# Prints what was tried, what was lost, and which planted faults were caught.
set -u

source "$(dirname "${BASH_SOURCE[0]}")/../../.ci/setup.sh" || exit 1
cd "$repo" || exit 1

case ${1:-} in
jobs | faults | api | contract | image | load | limits | workers) module=tests.reliability.$1 ;;
growth) module=tests.growth.run ;;
*)
    echo "Name a proof: jobs, faults, api, contract, image, load, limits, workers or growth." >&2
    exit 2
    ;;
esac
shift
exec "$venv/bin/python" -m "$module" "$@"
