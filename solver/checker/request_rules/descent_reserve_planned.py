"""Descent reserve planned: a camp used on the way down holds more than its planned nights.

For each cook group and each place where it sleeps after its last night at its highest camp,
other than the start: nights of its descent and storm reserves there >= `descent_nights`. The
planned night itself is held by the ledger. The amount is in nights.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.planned_reserves import lacking, nights_planned, slept_at
from solver.plan import Finding
from solver.problem import ReserveKind

RULE = "descent_reserve_planned"


def descent_reserve_planned(facts: Facts) -> Iterator[Finding]:
    """Nights of reserve that camps of the way down lack."""
    problem = facts.problem
    least = problem.rules.whole("descent_nights")
    metres = {place.place_id: place.elevation_m for place in problem.route.places}
    for group in problem.cook_groups:
        nights = slept_at(facts, group)
        slept_m = [metres[place] for place in nights]
        top = max((i for i, m in enumerate(slept_m) if m == max(slept_m)), default=0)
        for camp in dict.fromkeys(nights[top + 1 :]):
            if camp == problem.start_place:
                continue
            planned = nights_planned(facts, group, camp, ReserveKind.DESCENT, ReserveKind.STORM)
            if planned < least:
                yield lacking(
                    RULE, group, camp, word="a descent reserve", planned=planned, least=least
                )
