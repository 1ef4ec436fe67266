"""Sled lowered on steep: on a steep leg sleds are held back or lowered on the way down.

For each leg on which sleds are hauled homeward, where its steepest part is given: that <=
`lower_sled_deg`. The amount is in degrees, rounded up.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.sled_legs import read_sled_legs
from solver.plan import Finding
from solver.problem import Direction

RULE = "sled_lowered_on_steep"


def sled_lowered_on_steep(facts: Facts) -> Iterator[Finding]:
    """Legs where a sled runs into its hauler unless it is held."""
    most = facts.problem.rules.whole("lower_sled_deg")
    for leg, directions in read_sled_legs(facts):
        steepest = leg.steepest_deg
        if steepest is not None and steepest > most and Direction.HOMEWARD in directions:
            yield Finding(
                RULE,
                f"leg {leg.leg_id} is {steepest:g} degrees at its steepest: on the way down "
                "somebody holds each sled back from behind, or it is lowered on a rope",
                math.ceil(steepest - most),
                "degrees",
                (("leg", leg.leg_id), ("from_place", leg.from_place), ("to_place", leg.to_place)),
            )
