"""Sleeping elevation gain cautious: a strict pace that not every calendar keeps.

For each night that is higher than all before it and above `cautious_threshold_m`: the mean gain
since the first night at the last camp at or below that elevation <= `cautious_gain_m`. The amount
is the most that any night is above it, in metres of the mean, rounded up. People with the
same nights have one finding.

Documents: altitude-review-2017, altitude-charity, altitude-sheet-1, mountaineering-textbook.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from solver.calculators.sleeping_elevation import Night, mean_gain_m_per_night
from solver.checker.ledger.facts import Facts
from solver.checker.queries.elevations import Sleepers, read_sleepers
from solver.plan import Finding

RULE = "sleeping_elevation_gain_cautious"


def sleeping_elevation_gain_cautious(facts: Facts) -> Iterator[Finding]:
    """The night that comes soonest for its elevation, one finding for people alike."""
    rules = facts.problem.rules
    limit, threshold = rules.number("cautious_gain_m"), rules.number("cautious_threshold_m")
    for sleepers in read_sleepers(facts):
        mean, night = max(_means(sleepers, threshold), default=(0.0, 0))
        if mean > limit:
            day, place_id = facts.timeline.nights[-night].day, sleepers.places[-night]
            yield Finding(
                RULE,
                f"{place_id}, {sleepers.who}: sleeping there on the night of day {day} is a mean "
                f"gain of {mean:.0f} m a night above {threshold:.0f} m; the cautious pace is "
                f"{limit:.0f} m",
                math.ceil(mean - limit - 1e-9),
                "m",
                (("day", day), ("place", place_id), ("person", sleepers.person_ids[0])),
                ("plan more nights on the way, and name who decides on the pace",),
            )


def _means(sleepers: Sleepers, threshold: float) -> Iterator[tuple[float, int]]:
    """Mean gain up to each new highest night [m], with the night counted from the end."""
    slept = sleepers.slept_m
    for night in range(1, len(slept)):
        if slept[night] > max(slept[:night]):
            nights = [Night(float(metres)) for metres in slept[: night + 1]]
            mean = mean_gain_m_per_night(nights=nights, threshold_m=threshold)
            yield mean, len(slept) - night
