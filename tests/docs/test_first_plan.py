"""The first command of the README: it prints a plan, fails with a message, and cleans up."""

import json
import os
import signal
import subprocess
import sys
import time
import uuid
from pathlib import Path

import pytest

from solver.rulebook import RULES

ROOT = Path(__file__).parents[2]
MARK = "PYTHON_OF_ONE_TEST"
"""A variable that the processes of the service pass on to their children."""


def started(tmp_path: Path, mark: str, *arguments: str) -> subprocess.Popen:
    """The script in a session of its own, so that a Ctrl-C for it is not one for the tests."""
    folder = tmp_path / "throw-away"
    folder.mkdir()
    return subprocess.Popen(
        ["bash", str(ROOT / "examples/first-plan.sh"), *arguments],
        env={**os.environ, MARK: mark, "TMPDIR": str(folder)},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    )


def marked_processes(mark: str) -> list[str]:
    """The command lines of all living processes that were started with a mark."""
    if not Path("/proc/self/environ").exists():
        pytest.skip("this machine does not tell what its processes were started with")
    found = []
    for process in Path("/proc").glob("[0-9]*"):
        try:
            if f"{MARK}={mark}".encode() in (process / "environ").read_bytes().split(b"\0"):
                found.append((process / "cmdline").read_bytes().replace(b"\0", b" ").decode())
        except OSError:  # It ended meanwhile, or is not ours.
            continue
    return found


@pytest.fixture
def mark() -> str:
    """A word that only the processes of one test carry."""
    return uuid.uuid4().hex


def test_it_prints_a_plan_and_leaves_nothing_behind(tmp_path, mark):
    """The script prints a checked plan, and leaves no process and no file."""
    script = started(tmp_path, mark)
    out, err = script.communicate(timeout=180)
    assert script.returncode == 0, err
    assert f"independent check: passed, {len(RULES)} rules, 0 findings" in out
    assert "Start the service for good" in out
    assert marked_processes(mark) == []
    assert list((tmp_path / "throw-away").iterdir()) == []


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM])
def test_a_signal_stops_the_service_too(tmp_path, mark, number):
    """Interrupted while its service runs, the script stops it and leaves nothing behind."""
    script = started(tmp_path, mark, str(ROOT / "examples/guided-six.json"))
    until = time.monotonic() + 90
    while not any("service.jobs.fork_server" in line for line in marked_processes(mark)):
        assert time.monotonic() < until, "the service was never seen"
        assert script.poll() is None, script.communicate()[1]
        time.sleep(0.1)
    os.killpg(script.pid, number) if number == signal.SIGINT else script.send_signal(number)
    script.communicate(timeout=30)
    assert script.returncode == 128 + number
    assert marked_processes(mark) == []
    assert list((tmp_path / "throw-away").iterdir()) == []


def test_a_faulty_request_is_refused_with_every_fault(tmp_path, mark):
    """For a request with two faults the script prints both and ends with status 1."""
    request = json.loads((ROOT / "examples/smallest-request.json").read_text(encoding="utf-8"))
    request["roster"][0]["pack_cap"] = "27"
    request["colour"] = "red"
    file = tmp_path / "faulty.json"
    file.write_text(json.dumps(request), encoding="utf-8")
    script = started(tmp_path, mark, str(file))
    out, err = script.communicate(timeout=180)
    assert script.returncode == 1
    assert "/roster/0/pack_cap: A mass needs a unit." in out
    assert "/colour: There is no such field." in out
    assert "there is no plan for" in err
    assert marked_processes(mark) == []


def test_a_file_that_does_not_exist_is_named(tmp_path, mark):
    """Asked for a file that does not exist, the script names it and starts nothing."""
    script = started(tmp_path, mark, "nowhere.json")
    out, err = script.communicate(timeout=60)
    assert script.returncode == 1
    assert "there is no file nowhere.json" in err
    assert out == ""


def test_the_printer_is_typed():
    """The script that prints plans passes the strict type check of the packages."""
    command = [str(Path(sys.executable).parent / "mypy"), "--strict", "examples/print_plan.py"]
    run = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert run.returncode == 0, run.stdout
