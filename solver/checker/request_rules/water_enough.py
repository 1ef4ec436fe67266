"""Water enough: each person has as much water a day as hard work in the cold asks for.

Where both are given: melted_l + boiled_l >= `least_water_l`. The amount is in millilitres,
rounded up. Published field manuals give 2.8 to 5.7 L.

Documents: mountain-manual, cold-manual.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.plan import Finding

RULE = "water_enough"


def water_enough(facts: Facts) -> Iterator[Finding]:
    """Water that each person lacks in a day."""
    conditions = facts.problem.conditions
    if conditions.melted_l is None or conditions.boiled_l is None:
        return
    planned = conditions.melted_l + conditions.boiled_l
    least = facts.problem.rules.number("least_water_l")
    missing_ml = math.ceil((least - planned) * 1000 - 1e-6)
    if missing_ml > 0:
        yield Finding(
            RULE,
            f"{planned:g} L of water for a person and day, melted and boiled, {least:g} L is the "
            "least",
            missing_ml,
            "mL",
            (),
            (f"melt {missing_ml} mL more for each person and day, and take the fuel for it",),
        )
