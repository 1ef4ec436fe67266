"""What the rest is asked with and what comes of it, as frozen data."""

from __future__ import annotations

from dataclasses import dataclass

from solver.outcome import Outcome, Solved
from solver.problem import Problem, ReserveKind
from solver.rest.wait import Spent


@dataclass(frozen=True, slots=True)
class LettingGo:
    """One thing that the leader allows to be let go: a rule with a reason, or nights of reserves.

    `rule_id` names a hard rule that may be waived. Without it, reserves of `kind` at `place_id`
    (all places where None) are given up.
    """

    reason: str
    rule_id: str | None = None
    kind: ReserveKind | None = None
    place_id: str | None = None


@dataclass(frozen=True, slots=True)
class Rest:
    """What comes of planning the rest: the outcome of `problem`, and what it took.

    `spent` are nights of reserves that were used up, `let_go` the steps of the leader's order
    that were needed, in that order. `is_unchanged` says that the followed plan still stands.
    """

    problem: Problem
    outcome: Outcome
    spent: tuple[Spent, ...] = ()
    let_go: tuple[LettingGo, ...] = ()
    is_unchanged: bool = False

    @property
    def is_solved(self) -> bool:
        """Whether there is a plan for the rest."""
        return isinstance(self.outcome, Solved)
