# Sourced by tests/run.sh and examples/first-plan.sh: makes .venv with the versions of
# requirements.lock and sets repo and venv. It needs python3 >= 3.11 with pip and venv, and a
# package index. It does nothing when .venv is as the lock wants it.

repo=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
venv=$repo/.venv
tools=$repo/.tools

find_python() {
    local name
    for name in "${PYTHON:-python3}" python3.14 python3.13 python3.12 python3.11; do
        if command -v "$name" >/dev/null 2>&1 &&
            "$name" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; then
            command -v "$name"
            return
        fi
    done
    echo "setup: no Python of version 3.11 or newer is on PATH. Install one, or name it: PYTHON=/path/to/python3 bash ..." >&2
    return 1
}

# Two fingerprints: a virtual environment survives neither another interpreter nor being moved,
# so those two ask for a new one; a change of the pins asks only for an update of it.
maker_of() {
    "$1" -c 'import sys; print(sys.version, sys.argv[1])' "$venv" | tr '\n' ' '
}

pins_of() {
    "$1" - "$repo/requirements.lock" "$repo/pyproject.toml" <<'PY'
import hashlib, pathlib, sys

print(hashlib.sha256(b"".join(pathlib.Path(name).read_bytes() for name in sys.argv[1:])).hexdigest())
PY
}

set_up() {
    local python maker pins uv=$tools/bin/uv
    python=$(find_python) || return
    maker=$(maker_of "$python") || return
    pins=$(pins_of "$python") || return
    if [ -x "$venv/bin/python" ] && [ "$(cat "$venv/made-by" 2>/dev/null)" = "$maker" ]; then
        if [ "$(cat "$venv/made-from" 2>/dev/null)" = "$pins" ]; then
            return 0
        fi
    else
        rm -rf "$venv"
    fi
    echo "setup: installing the pinned versions into .venv"
    if ! "$uv" --version >/dev/null 2>&1; then
        "$python" -m venv --clear "$tools" || return
        "$tools/bin/python" -m pip install --quiet --disable-pip-version-check uv || return
    fi
    export UV_PYTHON_DOWNLOADS=never UV_HTTP_TIMEOUT="${UV_HTTP_TIMEOUT:-180}"
    if [ ! -d "$venv" ]; then
        "$uv" venv --quiet --python "$python" "$venv" || return
        echo "$maker" >"$venv/made-by"
    fi
    "$uv" pip sync --quiet --python "$venv" "$repo/requirements.lock" || return
    # The build backend is pinned in the lock too, so nothing is fetched for this step.
    "$uv" pip install --quiet --python "$venv" --no-deps --no-build-isolation \
        --editable "$repo" || return
    echo "$pins" >"$venv/made-from"
}

set_up
