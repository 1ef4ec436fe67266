"""Spare sled kept: a person who cannot walk can be hauled out from below.

On each night that people sleep beyond a sled leg: sleds that stand on their way home, the start
place left out, >= spare sleds; and a drag tarp is in the gear. Sleds left where the sled legs end
carry nothing then.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.at_night import sleds_at
from solver.checker.queries.listed_gear import units_of
from solver.checker.queries.telling import runs
from solver.checker.queries.words import counted, listed
from solver.plan import Finding
from solver.problem import LegMode, Night, Purpose

RULE = "spare_sled_kept"


def spare_sled_kept(facts: Facts) -> Iterator[Finding]:
    """Nights without a sled near enough, and a drag tarp that is not listed."""
    wanted = facts.problem.rules.whole("spare_sleds")
    missing = []
    asked = False
    for night in facts.timeline.nights:
        lacks = [wanted - _sleds_for(facts, night, place) for place in _far_places(facts, night)]
        asked = asked or bool(lacks)
        missing.append((night.day, max(lacks, default=0)))
    for run in runs(missing):
        places = _far_places(facts, facts.night(run.first_day))
        yield Finding(
            RULE,
            f"{run.words}: people sleep at {listed(places)} with {wanted - run.amount} of "
            f"{counted(wanted, 'sled')} left on their way home to haul somebody out with",
            run.amount,
            "sleds",
            run.where,
            ("a sled left where the sled legs end until everybody is down",),
        )
    if asked and not units_of(facts, Purpose.DRAG_TARP):
        yield Finding(
            RULE,
            "no drag tarp is listed in the gear to bring somebody down to the sled in",
            1,
            "units",
            (("purpose", Purpose.DRAG_TARP.value),),
            ("a drag tarp in the gear",),
        )


def _far_places(facts: Facts, night: Night) -> list[str]:
    """Where people sleep who have a sled leg on their way home."""
    route = facts.problem.route
    beyond = [leg.to_place for leg in route.legs if leg.mode is LegMode.SLED]
    places = dict.fromkeys(place for _, place in night.sleeps_at)
    return [p for p in places if any(route.is_at_or_beyond(p, mark) for mark in beyond)]


def _sleds_for(facts: Facts, night: Night, place_id: str) -> int:
    """How many sleds stand between a place and the start place on a night [1]."""
    way = set(facts.problem.route.way_home(place_id)) - {facts.problem.start_place}
    return len(sleds_at(facts, night, way))
