"""Old plan up to the moment, what was counted, and the new plan are one ledger to the checker.

Whatever is neither carried, eaten, burnt nor stated lost is found.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache
from random import Random

from solver.checker import check_plan, check_request
from solver.outcome import Solved
from solver.plan import Load, Plan, Stowed
from solver.problem import Item, Problem
from solver.rest.planning import plan_rest
from tests.rest.under_way import QUICK, drawn_event, followed


@dataclass(frozen=True)
class Line:
    """A rest after an event: its problem, the plan of it all, the one before, and the gear then."""

    problem: Problem
    plan: Plan
    before: Plan
    gear: tuple[Item, ...]

    def rules_broken(self, **changed: object) -> set[str]:
        """The rules that the checker finds broken, with something changed."""
        line = replace(self, **changed)  # type: ignore[arg-type]
        report = check_plan(check_request(line.problem), line.plan, line.before)
        return {finding.rule_id for finding in report.findings}

    def packs_to_come(self) -> Iterator[tuple[int, int, Load]]:
        """The trip, the person and the load of each pack on a trip that is not over."""
        for at, trip in enumerate(self.plan.trips):
            for who, load in enumerate(trip.loads):
                if load.pack and not self.problem.is_over(trip.day):
                    yield at, who, load

    def with_pack(self, trip: int, person: int, pack: tuple[Stowed, ...]) -> Plan:
        """The plan with other things in one pack on one trip."""
        trips, loads = list(self.plan.trips), list(self.plan.trips[trip].loads)
        loads[person] = replace(loads[person], pack=pack)
        trips[trip] = replace(trips[trip], loads=tuple(loads))
        return replace(self.plan, trips=tuple(trips))


@cache
def _lines() -> tuple[Line, ...]:
    chance, found = Random(5), []
    for kind in ("tiny", "glacier"):
        for seed in range(20):
            if (drawn := followed(kind, seed)) is not None:
                event = drawn_event(*drawn, chance)
                rest = plan_rest(event, drawn[1], QUICK)
                if isinstance(rest.outcome, Solved):
                    found.append(Line(rest.problem, rest.outcome.plan, drawn[1], event.gear))
    return tuple(found)


def test_the_whole_line_passes_as_one_plan() -> None:
    """From the first day to the last, with what was counted on the way, no rule is broken."""
    assert len(_lines()) >= 10
    for line in _lines():
        assert line.rules_broken() == set()


def test_a_loss_that_is_not_stated_is_found() -> None:
    """If nobody says that it was lost, it is missing where it should stand or come home."""
    silent_ones = 0
    for line in _lines():
        history = line.problem.history
        assert history is not None
        if any(change.count < 0 for change in history.changes):
            silent = replace(history, changes=(), standing=())
            problem = replace(line.problem, history=silent, gear=line.gear)
            assert line.rules_broken(problem=problem)
            silent_ones += 1
    assert silent_ones >= 5


def test_a_unit_left_behind_or_made_up_is_found() -> None:
    """One unit fewer or more in any pack to come does not come out even."""
    planted = 0
    for line in _lines():
        for at, who, load in line.packs_to_come():
            first, *others = load.pack
            for count in (first.count - 1, first.count + 1):
                kept = (replace(first, count=count),) if count else ()
                assert line.rules_broken(plan=line.with_pack(at, who, (*kept, *others)))
                planted += 1
    assert planted >= 50
