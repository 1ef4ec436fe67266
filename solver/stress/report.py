"""What a stress test finds: a verdict for each blow, and the weakest day."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from solver.rest.wait import Spent
from solver.stress.blows import Blow


class Verdict(StrEnum):
    """What a blow does to a plan."""

    STANDS = "stands"
    AFTER_REPLAN = "after_replan"
    NO = "no"
    NOT_SETTLED = "not_settled"


@dataclass(frozen=True, slots=True)
class Settled:
    """A verdict, why the plan does not stand as it is, and nights of reserves that it takes."""

    verdict: Verdict
    why: str = ""
    spent: tuple[Spent, ...] = ()


@dataclass(frozen=True, slots=True)
class OneMore:
    """One more of something, and against how many blows of the weakest day it helps.

    `nights` is 1 where it is a night of food and fuel of the cook group `thing`, 0 where it is
    one more of the unit `thing`. `not_settled` counts the blows that the time left open.
    """

    thing: str
    nights: int
    helps: int
    not_settled: int


@dataclass(frozen=True, slots=True)
class Weakest:
    """The weakest day, how many of its blows have which verdict, and what would help."""

    day: int
    no: int
    not_settled: int
    after_replan: int
    one_more: tuple[OneMore, ...]


@dataclass(frozen=True, slots=True)
class Result:
    """A blow with what it does; `is_merged` where an earlier blow leaves the same state."""

    blow: Blow
    settled: Settled
    is_merged: bool = False

    @property
    def verdict(self) -> Verdict:
        """What the blow does to the plan."""
        return self.settled.verdict


@dataclass(frozen=True, slots=True)
class Report:
    """Every blow with its verdict, the number of different states, and the weakest day."""

    results: tuple[Result, ...]
    states: int
    weakest: Weakest | None

    def states_with(self, verdict: Verdict) -> int:
        """How many different states have a verdict [1]."""
        return sum(r.verdict is verdict and not r.is_merged for r in self.results)

    def count(self, verdict: Verdict) -> int:
        """How many blows have a verdict [1]."""
        return sum(result.verdict is verdict for result in self.results)
