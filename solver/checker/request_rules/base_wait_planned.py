"""Base wait planned: people can wait at the airstrip for an aircraft that comes late.

Where the trip starts at an airstrip, for each cook group: nights of its base waits there >=
`base_wait_nights`. The amount is in nights. The number is common practice.

Documents: icefield-planning, sled-log.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.planned_reserves import lacking, nights_planned
from solver.plan import Finding
from solver.problem import PlaceKind, ReserveKind

RULE = "base_wait_planned"


def base_wait_planned(facts: Facts) -> Iterator[Finding]:
    """Nights of waiting that the airstrip lacks."""
    problem = facts.problem
    start = problem.start_place
    if problem.route.place(start).kind is not PlaceKind.AIRSTRIP:
        return
    least = problem.rules.whole("base_wait_nights")
    for group in problem.cook_groups:
        planned = nights_planned(facts, group, start, ReserveKind.BASE_WAIT)
        if problem.members(group.cook_group_id) and planned < least:
            yield lacking(RULE, group, start, word="a base wait", planned=planned, least=least)
