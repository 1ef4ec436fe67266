"""Faults of the storage under a running service: `bash tests/reliability/run.sh faults [--long]`.

While a fault lasts nothing may be accepted and nothing may be an error of ours; health and
readiness must say so; and within five seconds of its end the service must take requests again.
"""

import os
import shutil
import sqlite3
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import httpx

from tests.reliability.trial import Trial
from tests.service.processes import CALLER

_HEAL_SECONDS = 5.0
_NOTICE_SECONDS = 7.0
"""A lock is waited for, for five seconds, before it counts as a fault [s]."""


_LARGE = {"order": "sleep", "seconds": 0.1, "filler": "y" * 20_000}


@contextmanager
def moved_away(path: Path) -> Iterator[None]:
    """The file is somewhere else."""
    path.rename(path.with_suffix(".away"))
    yield
    path.with_suffix(".away").rename(path)


@contextmanager
def replaced(path: Path) -> Iterator[None]:
    """Garbage is in the place of the file."""
    path.rename(path.with_suffix(".away"))
    path.write_bytes(b"garbage" * 1000)
    yield
    path.unlink()
    path.with_suffix(".away").rename(path)


@contextmanager
def locked(path: Path) -> Iterator[None]:
    """Another program holds the write lock."""
    other = sqlite3.connect(path, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    yield
    other.execute("ROLLBACK")
    other.close()


@contextmanager
def full(path: Path) -> Iterator[None]:
    """The disk is full."""
    filler = path.with_name("filler")
    with filler.open("wb", buffering=0) as file:
        try:
            while file.write(b"x" * 4096):
                pass
        except OSError:
            pass
    yield
    filler.unlink()


@contextmanager
def read_only(path: Path) -> Iterator[None]:
    """Nobody may write to the file and its log, not even who has them open."""
    files = [path, path.with_name(path.name + "-wal")]
    subprocess.run(["chattr", "+i", *files], check=True)
    try:
        yield
    finally:
        subprocess.run(["chattr", "-i", *files], check=True)


def may_make_read_only(folder: Path) -> bool:
    """Whether this user can take the writing from a file in this folder."""
    file = folder / "tried"
    file.touch()
    change = ["chattr", "+i", file], ["chattr", "-i", file]
    return shutil.which("chattr") is not None and all(
        subprocess.run(one, check=False, capture_output=True).returncode == 0 for one in change
    )


FAULTS: dict[str, Callable[[Path], object]] = {
    "database gone": moved_away,
    "database replaced": replaced,
    "database locked": locked,
    "database read-only": read_only,
    "disk full": full,
}


def told(answer: httpx.Response) -> str:
    """The status of an answer; a refusal that does not say when to come again is another one."""
    says_when = answer.status_code != 503 or "retry-after" in answer.headers
    return f"{answer.status_code}" if says_when else "503 without Retry-After"


def suffer(trial: Trial, fault: Callable, *, seconds: float) -> list[str]:
    """Let a running service suffer a fault for so long; gives what it did wrong [s]."""
    path = trial.folder / "plans.sqlite3"
    wrong: list[str] = []
    trial.start()
    trial.await_ready()
    trial.ask(0.1)
    seen: Counter[tuple[str, str]] = Counter()
    with fault(path):
        noticed_by = time.monotonic() + _NOTICE_SECONDS
        ends_at = noticed_by + seconds
        while time.monotonic() < ends_at:
            answer = CALLER.post(f"{trial.url}/v1/plans", json=_LARGE, timeout=30)
            seen["POST", told(answer)] += 1
            for page in ("healthz", "readyz"):
                answer = CALLER.get(f"{trial.url}/{page}", timeout=30)
                if time.monotonic() > noticed_by:
                    seen[page, told(answer)] += 1
            time.sleep(0.2)
    wrong += [f"{what} {status}" for what, status in seen if status != "503"]
    answers = ", ".join(f"{n} {what} {status}" for (what, status), n in sorted(seen.items()))
    print(f"  answers: {answers}", flush=True)
    try:
        trial.await_ready(seconds=_HEAL_SECONDS)
    except TimeoutError:
        wrong.append(f"not ready {_HEAL_SECONDS} s after the end")
    if not wrong and not trial.ask(0.1):
        wrong.append("took no request after the end")
    tally = trial.account(kills=0, seconds=60)
    if not tally.is_clean():
        wrong.append(str(tally))
    trial.kill()
    return wrong


@contextmanager
def small_disk() -> Iterator[Path]:
    """A folder on a disk of 4 MB; None where this user may not mount one."""
    folder = Path(tempfile.mkdtemp())
    command = ["mount", "-t", "tmpfs", "-o", "size=4m", "tmpfs", str(folder)]
    mounted = os.getuid() == 0 and subprocess.run(command, check=False).returncode == 0
    try:
        yield folder if mounted else None
    finally:
        if mounted:
            subprocess.run(["umount", "-l", str(folder)], check=False)
        shutil.rmtree(folder, ignore_errors=True)


def main() -> None:
    """Try every fault; the exit status says whether the service did all that it must."""
    seconds = 20.0 if "--long" in sys.argv[1:] else 3.0
    all_well = True
    for name, fault in FAULTS.items():
        with small_disk() if fault is full else tempfile.TemporaryDirectory() as folder:
            if folder is None:
                print(f"{name}: skipped, no small disk can be mounted here", flush=True)
                continue
            if fault is read_only and not may_make_read_only(Path(folder)):
                print(f"{name}: skipped, chattr does nothing here", flush=True)
                continue
            wrong = suffer(Trial(Path(folder)), fault, seconds=seconds)
        all_well &= not wrong
        print(f"{name} for {seconds:.0f} s: {', '.join(wrong) or 'ok'}", flush=True)
    with tempfile.TemporaryDirectory() as folder:
        wrong = suffer(Trial(Path(folder), planted="blind"), moved_away, seconds=seconds)
    all_well &= bool(wrong)
    said = f"caught ({', '.join(wrong)})" if wrong else "NOT CAUGHT"
    print(f"planted fault blind: {said}", flush=True)
    sys.exit(not all_well)


if __name__ == "__main__":
    main()
