"""Night temperature given: whether clothing is warm enough can be seen at every camp.

Places beyond the start place where people sleep and of which no night temperature is given = 0.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.words import listed
from solver.plan import Finding

RULE = "night_temperature_given"


def night_temperature_given(facts: Facts) -> Iterator[Finding]:
    """One advisory that names every camp without its temperature."""
    problem = facts.problem
    slept = {place for night in facts.timeline.nights for _, place in night.sleeps_at}
    missing = [
        place.place_id
        for place in problem.route.places
        if place.place_id in slept - {problem.start_place} and place.night_temperature_c is None
    ]
    if missing:
        yield Finding(
            RULE,
            f"how cold nights are at {listed(missing)} is not given: whether clothing is warm "
            "enough there is not checked",
            len(missing),
            "places",
            tuple(("place", place_id) for place_id in missing),
            ("the temperature of a typical night at each camp",),
        )
