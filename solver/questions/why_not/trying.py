"""Changes tried on the whole problem, each with the amounts that may do, while time is left."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from solver.diagnosis import Remedied
from solver.outcome import Limits
from solver.problem import Problem
from solver.progress import Watch
from solver.questions.changes.change import Change
from solver.questions.trial import try_problem

STEP = 100
"""Amounts are whole multiples of this, so that one decimal says them [g or mL]."""

_MORE = (0, 500, 1_000)
"""What is added to the least amount, one after the other, until whole units fit [g or mL]."""

_TRIAL_SECONDS = 5.0
"""Time for one trial; less where less is left [s]."""

_LEAST_SECONDS = 0.5
"""With less time than this no trial begins: it hears of the end only between its steps [s]."""

_MOST_UNITS = 3
"""Of containers, bags and small things, up to how many are tried [1]."""

Made = list[tuple[Change, int]]
"""Changes with their amounts."""


@dataclass(slots=True)
class Trials:
    """The problem and what may be used; `tried` counts the changes that were judged."""

    problem: Problem
    limits: Limits
    watch: Watch
    tried: int = 0

    @property
    def is_over(self) -> bool:
        """Whether too little time is left for a trial."""
        return self.watch.left() < _LEAST_SECONDS

    def solves(self, problem: Problem | None) -> bool | None:
        """Whether a changed problem has a plan; None where time ran out."""
        if problem is None:
            return False
        seconds = min(_TRIAL_SECONDS, self.watch.left())
        time = Watch(seconds, now=self.watch.now, wish_to_stop=self.watch.should_stop)
        time.start()
        return try_problem(problem, self.limits, time).solvable

    def first_that_solves(self, problem: Problem, change: Change, least: int) -> int | None:
        """The smallest amount tried at which a change gives a plan; None where none does."""
        for amount in amounts_of(change, least):
            if self.is_over:
                return None
            if self.solves(change.apply(problem, amount)):
                return amount
        return None


def amounts_of(change: Change, least: int) -> Iterator[int]:
    """The amounts at which a change is tried, the smallest first."""
    if change.is_measured:
        yield from (rounded_up(least) + more for more in _MORE)
    elif change.unit:
        yield from range(1, min(_MOST_UNITS, change.most) + 1)
    else:
        yield 0


def rounded_up(amount: int) -> int:
    """An amount in steps that people work with [g or mL]."""
    return max(STEP, -(-amount // STEP) * STEP)


def remedied(problem: Problem, made: Made) -> Remedied:
    """What is told of changes that help together."""
    changed = problem
    for change, amount in made:
        changed = change.apply(changed, amount) or changed
    return Remedied(
        kinds=tuple(change.kind for change, _ in made),
        texts=tuple(change.say(amount) for change, amount in made),
        amounts=tuple(amount if change.unit else None for change, amount in made),
        units=tuple(change.unit for change, _ in made),
        about=tuple(change.about for change, _ in made),
        is_decision=any(change.is_decision for change, _ in made),
        problem=changed,
    )
