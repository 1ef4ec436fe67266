"""Cache pole tall enough: the poles of a cache still show after the snow that may fall.

For each place that is left alone and whose poles' height above the snow is given: that >=
`pole_margin_m` + expected snow (none where not given). The amount is in centimetres, rounded up.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.left_alone import read_left_alone
from solver.plan import Finding

RULE = "cache_pole_tall_enough"


def cache_pole_tall_enough(facts: Facts) -> Iterator[Finding]:
    """Centimetres that poles are too short."""
    margin = facts.problem.rules.number("pole_margin_m")
    for left in read_left_alone(facts):
        shows = left.cache.pole_above_snow_m
        least = margin + (left.cache.expected_snow_m or 0.0)
        if shows is not None and shows < least - 1e-9:
            place = left.place.place_id
            yield Finding(
                RULE,
                f"the poles at {place} show {shows:g} m, and {least:g} m is what may fall and a "
                "margin: set taller ones, and set them again after each snowfall",
                math.ceil((least - shows) * 100 - 1e-6),
                "cm",
                (("place", place),),
            )
