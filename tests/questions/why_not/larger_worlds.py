"""How long "why there is no plan" takes on larger expeditions, beside their twins with a plan.

    python -m tests.questions.why_not.larger_worlds medium 6
    python -m tests.questions.why_not.larger_worlds large 6

makes so many seeded expeditions of a size. Each is solved as the service does, and then tightened
in one of three ways in turn: one person's caps, all caps on one leg, the room in one person's
packs. The factor falls by a tenth until divisible loads have no plan. The refusal with its
diagnosis is timed as the service gives it. All times are CPU time of this process.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from dataclasses import dataclass, replace
from statistics import median

from solver.model.inquiry import Inquiry
from solver.outcome import Infeasible, Limits, Outcome, Solved
from solver.problem import Caps, Person, Problem
from solver.progress import Watch
from solver.questions.answer import answer
from tests.benchmarks.instances import expedition, size_named

LIMITS = Limits(wall_seconds=60.0)
_LP_SECONDS = 30.0
KINDS = ("one person's caps", "the party's caps", "one person's room")


@dataclass(frozen=True)
class Timed:
    """A tightened world with both times [s], and how far the diagnosis went."""

    kind: str
    factor: float
    is_twin_solved: bool
    twin_seconds: float
    seconds: float
    refusal: Outcome

    @property
    def ratio(self) -> float:
        """The refusal with its diagnosis by the solve of the twin [1]."""
        return self.seconds / self.twin_seconds


def _caps(person: Person, factor: float) -> Person:
    caps = person.caps
    less = Caps(
        int(caps.pack_g * factor),
        None if caps.sled_g is None else int(caps.sled_g * factor),
        total_g=None if caps.total_g is None else int(caps.total_g * factor),
        pack_by_leg=tuple((m, way, int(g * factor)) for m, way, g in caps.pack_by_leg),
    )
    return replace(person, caps=less)


def _room(person: Person, factor: float) -> Person:
    return replace(person, pack_volume_ml=int((person.pack_volume_ml or 0) * factor))


def _only(change: Callable[[Person, float], Person], problem: Problem, factor: float) -> Problem:
    first, *others = problem.roster
    return replace(problem, roster=(change(first, factor), *others))


def _tightened(problem: Problem, kind: str, factor: float) -> Problem:
    if kind == KINDS[0]:
        return _only(_caps, problem, factor)
    if kind == KINDS[1]:
        return replace(problem, roster=tuple(_caps(one, factor) for one in problem.roster))
    return _only(_room, problem, factor)


def refused_world(problem: Problem, kind: str) -> tuple[Problem, float]:
    """The world at the first factor at which divisible loads have no plan, and that factor."""
    for tenths in range(9, 0, -1):
        tight = _tightened(problem, kind, tenths / 10)
        if Inquiry.of(tight, LIMITS).bound(_LP_SECONDS) is None:
            return tight, tenths / 10
    raise ValueError(f"{kind}: there is always a plan")


def _cpu(problem: Problem) -> tuple[Outcome, float]:
    """What the service's solve says, and its CPU time [s]."""
    begun = time.process_time()
    outcome = answer(problem, LIMITS, Watch(LIMITS.wall_seconds, now=time.process_time))
    return outcome, time.process_time() - begun


def timed(size: str, number: int) -> Timed:
    """One world with its twin."""
    twin = expedition(size_named(size), number)
    kind = KINDS[number % len(KINDS)]
    tight, factor = refused_world(twin, kind)
    solved, twin_seconds = _cpu(twin)
    refusal, seconds = _cpu(tight)
    return Timed(kind, factor, isinstance(solved, Solved), twin_seconds, seconds, refusal)


def _line(number: int, one: Timed) -> str:
    told = one.refusal.diagnosis if isinstance(one.refusal, Infeasible) else None
    text = (
        f"world {number}: {one.kind} x {one.factor}; twin {'solved' if one.is_twin_solved else '?'}"
        f" {one.twin_seconds:.1f} s, refusal {one.seconds:.1f} s, ratio {one.ratio:.2f}"
    )
    if told is None:
        return f"{text}; no diagnosis\n"
    return (
        f"{text}; clash of {len(told.clash)}, {len(told.remedies)} remedies, "
        f"tried {told.tried}, not tried {told.not_tried}\n"
    )


def main(size: str, count: int) -> int:
    """Time so many worlds; 1 where one of them was not refused."""
    found = []
    for number in range(count):
        found.append(timed(size, number))
        sys.stdout.write(_line(number, found[-1]))
        sys.stdout.flush()
    ratios = sorted(one.ratio for one in found)
    ninetieth = ratios[min(len(ratios) - 1, int(0.9 * len(ratios)))]
    sys.stdout.write(f"{size}: ratio median {median(ratios):.2f}, 90 % {ninetieth:.2f}\n")
    return 0 if all(isinstance(one.refusal, Infeasible) for one in found) else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], int(sys.argv[2])))
