"""One contestant in a process of its own, watched from outside: its time, its memory.

A fresh process is started for each, pinned to the same two cores where the system allows
it. It tells every better plan and bound at once, so that one that is ended for its memory or
its time keeps what it had told.
"""

from __future__ import annotations

import multiprocessing as mp
import os
import resource
import sys
import threading
import time
from dataclasses import asdict, dataclass, field
from multiprocessing.connection import Connection
from pathlib import Path

from tests.benchmarks.glaciers import on_glaciers
from tests.benchmarks.instances import expedition, size_named

NAMES = (
    "ours",
    "textbook-cp-sat",
    "textbook-highs",
    "textbook-scip",
    "one-piece-cp-sat",
    "one-piece-highs",
    "one-piece-scip",
)
"""All contestants; named here so that the watching process need not load their solvers."""

EVERY_RULE = "ours, every rule"
"""Ours on the same expedition on a glacier; nobody else's model has the rules of glaciers."""

CORES = 2
GRACE_S = 300.0
"""What a contestant gets beyond twice its seconds, for writing its model and checking."""


@dataclass(frozen=True)
class Task:
    """One contestant on one expedition, with what it may use."""

    contestant: str
    size: str
    seed: int
    seconds: float
    gap: int = 0
    memory_mb: int = 8000


@dataclass
class Told:
    """What was told: time [s], and a peak or a bound or both [1/10,000]."""

    at_s: float
    peak: int | None
    bound: int | None


@dataclass
class Run:
    """A task done; `ended` is the contestant's last word or why it was ended.

    `peak` is that of the last plan when replayed, `breaches` what that replay found wrong.
    """

    task: Task
    ended: str = "died"
    told: list[Told] = field(default_factory=list)
    peak: int | None = None
    breaches: int | None = None
    build_s: float = 0.0
    wall_s: float = 0.0
    variables: int = 0
    memory_mb: float = 0.0


def memory_peak_mb(pid: int | None = None) -> float:
    """Most memory that a process ever held [MB]; this one's when none is named.

    From the kernel's own count since the process began its program. The usual figure of
    getrusage would include what the process that started it held.
    """
    try:
        status = Path(f"/proc/{pid or 'self'}/status").read_text()
    except OSError:
        return 0.0 if pid else resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1000
    for line in status.splitlines():
        if line.startswith("VmHWM:"):
            return int(line.split()[1]) / 1000
    return 0.0


def pin_to_cores() -> None:
    """Keep this process to two cores, the same for all, where the system can."""
    if hasattr(os, "sched_setaffinity"):
        os.sched_setaffinity(0, sorted(os.sched_getaffinity(0))[:CORES])


def _in_child(task: Task, line: Connection) -> None:
    """Run one contestant and tell everything down the line."""
    pin_to_cores()
    # Only here: the process that watches is to stay small, and never loads a solver.
    from tests.benchmarks.contestants import CONTESTANTS  # noqa: PLC0415

    # HiGHS prints a line of its own here and there, which belongs to nobody's table.
    os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
    one_at_a_time = threading.Lock()

    def tell(at_s: float, peak: int | None, bound: int | None) -> None:
        with one_at_a_time:
            line.send(Told(at_s, peak, bound))

    problem = expedition(size_named(task.size), task.seed)
    name = task.contestant
    if name == EVERY_RULE:
        problem, name = on_glaciers(problem), "ours"
    ending = CONTESTANTS[name](problem, task.seconds, task.gap, tell)
    line.send({**asdict(ending), "memory_mb": memory_peak_mb()})
    line.close()


def race(task: Task) -> Run:
    """Run a task to its end, or end it when it takes too much."""
    context = mp.get_context("spawn")
    mine, its = context.Pipe(duplex=False)
    process = context.Process(target=_in_child, args=(task, its))
    run = Run(task)
    begun = time.monotonic()
    process.start()
    its.close()
    try:
        _listen(run, process.pid, mine, begun)
    except EOFError:
        # It is gone without a last word.
        run.ended = "died"
    finally:
        process.kill()
        process.join()
        mine.close()
    run.wall_s = time.monotonic() - begun
    return run


def _listen(run: Run, pid: int | None, line: Connection, begun: float) -> None:
    """Take in what a contestant tells until its last word, or until it has taken too much."""
    allowed_s = 2 * run.task.seconds + GRACE_S
    while True:
        if line.poll(0.1):
            word = line.recv()
            if isinstance(word, Told):
                run.told.append(word)
                continue
            run.ended, run.peak, run.breaches = word["word"], word["peak"], word["breaches"]
            run.build_s, run.variables = word["build_s"], word["variables"]
            run.memory_mb = max(run.memory_mb, word["memory_mb"])
            return
        run.memory_mb = max(run.memory_mb, memory_peak_mb(pid))
        if run.memory_mb > run.task.memory_mb:
            run.ended = "out of memory"
            return
        if time.monotonic() - begun > allowed_s:
            run.ended = "out of time"
            return


def machine() -> dict[str, str | int | float]:
    """What the numbers were measured on, and how busy it was."""
    from importlib.metadata import version  # noqa: PLC0415

    one, five, _ = os.getloadavg()
    info = Path("/proc/cpuinfo")
    names = info.read_text().splitlines() if info.exists() else []
    cpu = next((n.split(":", 1)[1].strip() for n in names if n.startswith("model name")), "unknown")
    return {
        "cpu": cpu,
        "cores": os.cpu_count() or 0,
        "cores_used": CORES,
        "load_1_min": round(one, 2),
        "load_5_min": round(five, 2),
        "python": sys.version.split()[0],
        "ortools": version("ortools"),
    }
