"""Sleeping elevation gain held: nights above the threshold rise slowly enough, with rests.

For each night n above the threshold that is higher than all before it, with b the first night
at the last camp at or below the threshold: (elevation n - elevation b) / (n - b) <= metres a night;
and elevation n is at most so many metres above the last night that brought no rise. The amount is
in metres, of the mean in metres a night, rounded up.

Documents: altitude-consensus-2010, travel-health-book, mountaineering-textbook.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from solver.calculators.sleeping_elevation import (
    Night,
    mean_gain_m_per_night,
    sleeping_findings,
    sleeping_rule,
)
from solver.checker.ledger.facts import Facts
from solver.checker.queries.elevations import Sleepers, number, read_sleepers, rises, threshold_m
from solver.plan import Finding

RULE = "sleeping_elevation_gain_held"


def sleeping_elevation_gain_held(facts: Facts) -> Iterator[Finding]:
    """Nights that come too soon for their elevation, one finding for people alike."""
    for sleepers in read_sleepers(facts):
        yield from _mean(facts, sleepers)
        yield from _rest(facts, sleepers)


def _mean(facts: Facts, sleepers: Sleepers) -> Iterator[Finding]:
    limit = number(facts.problem, "sleeping_gain_m", "largest_step_m")
    nights = [Night(float(slept)) for slept in sleepers.slept_m]
    for rise in rises(facts, sleepers):
        mean = mean_gain_m_per_night(
            nights=nights[: rise.night + 1], threshold_m=threshold_m(facts.problem)
        )
        if mean > limit:
            yield _finding(
                sleepers,
                rise.day,
                rise.to_place,
                over_m=mean - limit,
                words=f"sleeping there on the night of day {rise.day} is a mean gain of "
                f"{mean:.0f} m a night, and {limit:.0f} m is the most",
                instead=f"stay more nights at {rise.from_place} or below before sleeping at "
                f"{rise.to_place}",
            )


def _rest(facts: Facts, sleepers: Sleepers) -> Iterator[Finding]:
    limit = number(facts.problem, "sleeping_rest_gain_m", "rest_every_gain_m")
    rule = replace(
        sleeping_rule(name="wms"),
        threshold_m=threshold_m(facts.problem),
        rest_every_gain_m=limit,
    )
    nights = [Night(float(slept)) for slept in sleepers.slept_m]
    for found in sleeping_findings(nights=nights, rule=rule):
        if found.kind == "rest_gain":
            day = facts.timeline.nights[found.night_index].day
            place_id = sleepers.places[found.night_index]
            yield _finding(
                sleepers,
                day,
                place_id,
                over_m=found.value - limit,
                words=f"the night of day {day} is {found.value:.0f} m above the last night that "
                f"brought no rise, and {limit:.0f} m is the most",
                instead=f"stay one night more at a camp on the way to {place_id}",
            )


def _finding(
    sleepers: Sleepers, day: int, place_id: str, *, over_m: float, words: str, instead: str
) -> Finding:
    return Finding(
        RULE,
        f"{place_id}, {sleepers.who}: {words}",
        math.ceil(over_m - 1e-9),
        "m",
        (("day", day), ("place", place_id), ("person", sleepers.person_ids[0])),
        (instead,),
    )
