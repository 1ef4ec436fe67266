"""What the API promises to anybody who asks: `bash tests/reliability/run.sh api [--long]`.

The short form takes a share of the bodies and values, the long form all of them. The run against
the published description is a proof of its own, `contract`.
"""

import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

from tests.reliability.api_trials import (
    Report,
    boundaries,
    hostile,
    outside_data,
    same_key,
    tenants,
)

ROOT = Path(__file__).parents[2]
SUITES = (
    "tests/service/translate/read/test_integrator_mistakes.py",
    "tests/service/test_access.py",
    "tests/service/http/test_connections.py",
    "tests/service/http/test_json_corpus.py",
)
"""Fifty mistakes, tenants and routes, connections, the corpus of JSON: tests that stand alone."""

Trial = Callable[[Path], Report]


def sound_trials(*, is_long: bool) -> dict[str, Trial]:
    """What a sound service must stand."""
    outside = outside_data()
    return {
        "one key": same_key,
        "hostile bodies": lambda f: hostile(f, share=1 if is_long else 40, outside=outside),
        "boundaries": lambda f: boundaries(
            f, most=None if is_long else 150, solved=100 if is_long else 2
        ),
        "tenants": tenants,
    }


CONTROLS: dict[str, Trial] = {
    "forgets_keys": lambda f: same_key(f, planted="forgets_keys"),
    "no_limits": lambda f: hostile(f, planted="no_limits", share=1000),
    "breaks_at_a_value": lambda f: boundaries(f, planted="breaks_at_a_value", most=60, solved=0),
    "mixes_tenants": lambda f: tenants(f, planted="mixes_tenants"),
}


def suites() -> bool:
    """Run the tests that stand for themselves."""
    command = [sys.executable, "-m", "pytest", "-q", "-rs", *SUITES]
    return subprocess.run(command, cwd=ROOT, check=False).returncode == 0


def main() -> None:
    """Run every trial and every control; the exit status says whether all went as it must.

    `--only NAME` runs the one trial or control of that name.
    """
    given = sys.argv[1:]
    only = given[given.index("--only") + 1] if "--only" in given else None
    is_long = "--long" in given
    known = {*sound_trials(is_long=is_long), *CONTROLS}
    if only is not None and only not in known:
        sys.exit(f"There is no trial {only}. Known are: {', '.join(sorted(known))}.")
    left_out = "none is named, so the corpora of JSON and of hostile bodies are left out"
    print(f"outside data: {outside_data() or left_out}", flush=True)
    all_well = True
    for name, trial in sound_trials(is_long=is_long).items():
        if only in (None, name):
            with tempfile.TemporaryDirectory() as folder:
                report = trial(Path(folder))
            all_well &= not report.wrong
            print(f"{name}: {report.tried}: {'; '.join(report.wrong) or 'ok'}", flush=True)
    for planted, trial in CONTROLS.items():
        if only in (None, planted):
            with tempfile.TemporaryDirectory() as folder:
                report = trial(Path(folder))
            all_well &= bool(report.wrong)
            said = f"caught ({report.wrong[0]})" if report.wrong else "NOT CAUGHT"
            print(f"planted fault {planted}: {report.tried}: {said}", flush=True)
    if only is None:
        all_well &= suites()
    sys.exit(not all_well)


if __name__ == "__main__":
    main()
