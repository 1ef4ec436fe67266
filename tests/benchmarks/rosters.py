"""Many rosters of one expedition planned one after the other in one process: time, memory.

Everything stays but the people: in each roster the caps of all are drawn anew, up to a tenth
more than they were, and one person's a tenth less, as when somebody is replaced.
"""

from __future__ import annotations

import multiprocessing as mp
from collections.abc import Iterator
from dataclasses import dataclass, replace
from multiprocessing.connection import Connection
from pathlib import Path
from random import Random
from time import monotonic

import numpy as np

from solver.problem import Caps, Person, Problem
from tests.benchmarks.instances import expedition, size_named
from tests.benchmarks.race_table import seconds as told_seconds
from tests.benchmarks.racing import memory_peak_mb, pin_to_cores

WARM = 5
"""Solves before memory is judged: pools fill and modules load in the first ones."""

GROWS_SHARE = 0.10
"""Memory is said to grow when the trend over the rest adds more than this share."""


@dataclass(frozen=True)
class Solve:
    """One roster planned: the outcome's name, its peak, time, and memory held afterwards."""

    outcome: str
    peak: int | None
    proven: bool
    took_s: float
    held_mb: float
    most_mb: float


def rosters(problem: Problem, count: int) -> Iterator[Problem]:
    """The same expedition with other people, seeded."""
    chance = Random("rosters")
    for _ in range(count):
        weak = chance.randrange(len(problem.roster))
        people = tuple(
            _redrawn(person, chance, weaker=number == weak)
            for number, person in enumerate(problem.roster)
        )
        yield replace(problem, roster=people)


def _redrawn(person: Person, chance: Random, *, weaker: bool) -> Person:
    share = 0.9 if weaker else chance.uniform(1.0, 1.1)
    caps = person.caps

    def drawn(cap_g: int) -> int:
        return round(cap_g * share / 100) * 100

    return replace(
        person,
        caps=Caps(
            pack_g=drawn(caps.pack_g),
            sled_g=drawn(caps.sled_g),
            total_g=None if caps.total_g is None else drawn(caps.total_g),
            pack_by_leg=tuple((mode, way, drawn(g)) for mode, way, g in caps.pack_by_leg),
        ),
    )


def held_now_mb() -> float:
    """Memory that this process holds now [MB]; the most it held where that is not told."""
    try:
        lines = Path("/proc/self/status").read_text().splitlines()
    except OSError:
        return memory_peak_mb()
    return next(int(line.split()[1]) / 1000 for line in lines if line.startswith("VmRSS:"))


def _in_child(size: str, count: int, seconds: float, line: Connection) -> None:
    pin_to_cores()
    # Only here: the process that watches is to stay small, and never loads a solver.
    from solver.outcome import Limits, Solved  # noqa: PLC0415
    from solver.pipeline import plan  # noqa: PLC0415
    from solver.progress import Watch  # noqa: PLC0415

    for problem in rosters(expedition(size_named(size), 1), count):
        begun = monotonic()
        outcome = plan(problem, Limits(seconds), Watch(seconds, now=monotonic))
        took = monotonic() - begun
        goal = outcome.goals[0] if isinstance(outcome, Solved) else None
        line.send(
            Solve(
                outcome=type(outcome).__name__,
                peak=None if goal is None else goal.value,
                proven=goal is not None and goal.proven,
                took_s=took,
                held_mb=held_now_mb(),
                most_mb=memory_peak_mb(),
            )
        )
    line.close()


def memory_trend(held_mb: list[float]) -> float:
    """What a straight line through memory held adds from its first to its last solve [share].

    The first solves are left out; 0 when fewer than three are left.
    """
    rest = np.array(held_mb[WARM:])
    if len(rest) < 3:
        return 0.0
    slope = np.polyfit(np.arange(len(rest)), rest, 1)[0]
    return float(slope * (len(rest) - 1) / rest[0])


def verdict(held_mb: list[float]) -> str:
    """Whether memory grows, in a sentence."""
    if len(held_mb) < WARM + 3:
        return f"too few rosters to say whether memory grows: {WARM + 3} are needed"
    trend = memory_trend(held_mb)
    word = "grows" if trend > GROWS_SHARE else "does not grow"
    return (
        f"memory {word}: {100 * trend:+.1f} % from roster {WARM + 1} to {len(held_mb)} along the "
        f"trend, {held_mb[WARM]:.0f} MB to {held_mb[-1]:.0f} MB"
    )


def run_rosters(count: int, seconds: float, size: str) -> int:
    """Plan the rosters, print a line for each; 1 when memory grows or a solve is missing."""
    context = mp.get_context("spawn")
    mine, its = context.Pipe(duplex=False)
    process = context.Process(target=_in_child, args=(size, count, seconds, its))
    process.start()
    its.close()
    done: list[Solve] = []
    print(f"{count} rosters of {size}, one after the other in one process, {seconds:g} s each")
    print(f"{'':>4}{'outcome':>14}{'peak':>7}{'proven':>8}{'time':>9}{'held':>9}{'most':>9}")
    while len(done) < count:
        try:
            solve = mine.recv()
        except EOFError:
            break
        done.append(solve)
        print(
            f"{len(done):>4}{solve.outcome:>14}{'–' if solve.peak is None else solve.peak:>7}"
            f"{'yes' if solve.proven else 'no':>8}{told_seconds(solve.took_s):>7} s"
            f"{solve.held_mb:>6.0f} MB{solve.most_mb:>6.0f} MB",
            flush=True,
        )
    process.join()
    if len(done) < count:
        print(f"the process ended after {len(done)} rosters")
        return 1
    planned = sum(1 for solve in done if solve.peak is not None)
    print(f"{planned} of {count} planned, {sum(solve.proven for solve in done)} proven")
    times = sorted(solve.took_s for solve in done)
    middle = told_seconds(times[len(times) // 2])
    print(f"time: {middle} s median, {told_seconds(times[-1])} s most")
    held = [solve.held_mb for solve in done]
    print(verdict(held))
    return 1 if memory_trend(held) > GROWS_SHARE else 0
