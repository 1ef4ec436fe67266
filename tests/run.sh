#!/usr/bin/env bash
# Sets up what is missing, then checks style, types, imports and behaviour; fails when any fails.
# Arguments are handed to pytest. Tests that use outside data look for it in the folder that
# HAULWRIGHT_OUTSIDE_DATA names and skip, with the reason, where it is not set.
set -u

begin=$SECONDS
source "$(dirname "${BASH_SOURCE[0]}")/../.ci/setup.sh" || exit 1
source "$repo/.ci/browser.sh"
echo "setup: $((SECONDS - begin)) s"
cd "$repo" || exit 1
export PATH="$venv/bin:$PATH"
# The tests start hundreds of processes, and each would compile every module anew.
unset PYTHONDONTWRITEBYTECODE

failed=()
step() {
    local name=$1 begin=$SECONDS
    shift
    if "$@"; then
        echo "$name: passed in $((SECONDS - begin)) s"
    else
        echo "$name: FAILED after $((SECONDS - begin)) s"
        failed+=("$name")
    fi
}

step lint ruff check --quiet
step format ruff format --quiet --check
step types mypy
step imports lint-imports --no-logo

# The tests come last and time themselves, so that their summary closes the output.
# A worker that has nothing left takes over tests of the other one.
pytest -n 2 --dist worksteal -q "$@" || failed+=(tests)

if [ ${#failed[@]} -gt 0 ]; then
    echo "failed: ${failed[*]}" >&2
    exit 1
fi
