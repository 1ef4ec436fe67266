#!/usr/bin/env bash
# Runs a benchmark: bash tests/benchmarks/run.sh solver|bin-packing [its own arguments]
# Sets up what is missing first. `solver --help` lists what the solver's benchmark can do.
set -u

source "$(dirname "${BASH_SOURCE[0]}")/../../.ci/setup.sh" || exit 1
cd "$repo" || exit 1

case ${1:-} in
solver) module=tests.benchmarks.solver_race ;;
bin-packing) module=tests.benchmarks.bin_packing ;;
*)
    echo "Name a benchmark: solver or bin-packing." >&2
    exit 2
    ;;
esac
shift
exec "$venv/bin/python" -m "$module" "$@"
