"""Sled slope not given: each leg that is walked with sleds gives how steep it is.

For each leg on which sleds are hauled: its steepest part is given. The amount is 1 a leg.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.sled_legs import read_sled_legs
from solver.plan import Finding

RULE = "sled_slope_not_given"


def sled_slope_not_given(facts: Facts) -> Iterator[Finding]:
    """Legs with sleds whose steepness is not checked."""
    for leg, _ in read_sled_legs(facts):
        if leg.steepest_deg is None:
            yield Finding(
                RULE,
                f"leg {leg.leg_id}: how steep it is at its steepest is not given, so it is "
                "not checked for sleds",
                1,
                "legs",
                (("leg", leg.leg_id),),
                (f"give the steepest angle of leg {leg.leg_id}",),
            )
