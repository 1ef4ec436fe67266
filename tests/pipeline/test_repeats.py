"""The same request gives the same plan, whatever else the machine does.

    HAULWRIGHT_REPEATS=10 pytest tests/pipeline/test_repeats.py

solves every example ten times; without it only the small ones are solved, three times. The runs
have other hash seeds and other company in turn: threads that spin in the same process, a process
that spins beside, and more solves of the same request in threads of their own.
"""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from pathlib import Path

import pytest

EXAMPLES = Path(__file__).parents[2] / "examples"
REPEATS = int(os.environ.get("HAULWRIGHT_REPEATS", "3"))
QUICK = ("smallest-request",)
SLOW = ("independent-three", "guided-six", "guided-seven", "guided-twelve")

SOLVE = """
import json, sys, time
from threading import Thread
from service.translate.read.requests import read_plan_request
from solver.outcome import Solved
from solver.pipeline import plan
from solver.progress import Watch

name, busy, solves = sys.argv[1], int(sys.argv[2]), int(sys.argv[3])
done, told = [], []
def spin():
    while not done:
        sum(range(1000))
for _ in range(busy):
    Thread(target=spin, daemon=True).start()
read = read_plan_request(json.load(open(name)))
def solve():
    watch = Watch(600.0, now=time.monotonic)
    outcome = plan(read.problem, read.limits, watch, timeline=read.timeline)
    assert isinstance(outcome, Solved)
    told.append(f"{outcome.record.repeatable} {outcome.goals} {outcome.plan}")
threads = [Thread(target=solve) for _ in range(solves)]
for thread in threads:
    thread.start()
for thread in threads:
    thread.join()
done.append(True)
assert len(told) == solves and len(set(told)) == 1
print(told[0])
"""

SPIN = "while True: sum(range(1000))"

COMPANY = ((0, 1, False), (2, 1, True), (1, 2, False))
"""Threads that spin, solves at once, and whether a process spins beside, one run after another."""


def told(name: str, number: int) -> str:
    """What one process says of an example: each has its own hash seed and its own company."""
    spinning, solves, beside = COMPANY[number % len(COMPANY)]
    other = subprocess.Popen([sys.executable, "-c", SPIN]) if beside else None
    try:
        run = subprocess.run(
            [
                *(sys.executable, "-c", SOLVE, str(EXAMPLES / f"{name}.json")),
                *(str(spinning), str(solves)),
            ],
            env={**os.environ, "PYTHONHASHSEED": str(number)},
            cwd=EXAMPLES.parent,
            capture_output=True,
            text=True,
            check=True,
            timeout=600,
        )
    finally:
        if other is not None:
            other.kill()
            other.wait()
    assert run.stdout.startswith("True ")
    return hashlib.sha256(run.stdout.encode()).hexdigest()


@pytest.mark.parametrize("name", QUICK)
def test_the_smallest_request_repeated_gives_one_plan(name: str) -> None:
    """Fresh processes with other hash seeds and other company find the same plan."""
    assert len({told(name, number) for number in range(REPEATS)}) == 1


@pytest.mark.skipif("HAULWRIGHT_REPEATS" not in os.environ, reason="takes minutes: on demand only")
@pytest.mark.parametrize("name", SLOW)
def test_a_larger_example_repeated_gives_one_plan(name: str) -> None:
    """The larger examples, each solved so many times, give one plan each."""
    assert len({told(name, number) for number in range(REPEATS)}) == 1
