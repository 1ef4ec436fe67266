"""Crevasse hazard given: a glacier's rules are asked of every leg that is travelled.

Legs travelled of which no crevasse hazard is given = 0. No rule of parties and their kit is asked
on such a leg, and none of the rules of glaciers at all where no leg gives its hazard.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.words import listed
from solver.plan import Finding

RULE = "crevasse_hazard_given"


def crevasse_hazard_given(facts: Facts) -> Iterator[Finding]:
    """One advisory that names every travelled leg without its hazard."""
    missing = dict.fromkeys(
        (trip.leg.from_place, trip.leg.to_place)
        for trip in facts.timeline.trips
        if trip.leg.crevasse_hazard is None
    )
    if missing:
        names = [f"{one} to {other}" for one, other in missing]
        words = (
            f"the crevasse hazard of {listed(names)} is not given: parties and their kit are "
            "not checked there"
        )
        if not facts.problem.is_glaciated:
            words = (
                "no leg gives its crevasse hazard: no rule of glaciers is asked, so parties, their "
                "kit, camps, caches and what a lost load takes along are not checked"
            )
        yield Finding(
            RULE,
            words,
            len(missing),
            "legs",
            tuple(("place", other) for _, other in missing),
            ("low, moderate or high as the crevasse hazard of each leg on a glacier",),
        )
