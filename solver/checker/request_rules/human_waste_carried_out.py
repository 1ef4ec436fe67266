"""Human waste carried out: human waste is planned to come down, with its liner.

Unless the land manager lets it stay (`may_be_left`), where anybody sleeps out:
waste_g_per_person_night >= `least_human_waste_g`. The amount is what is missing in grams. Measured
is a median of 128 g a person and day (Rose et al. 2015); 20 g of liner come to it.

Documents: faeces-review, high-peak-waste.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.plan import Finding

RULE = "human_waste_carried_out"


def human_waste_carried_out(facts: Facts) -> Iterator[Finding]:
    """Waste that nobody plans to carry down."""
    waste = facts.problem.waste
    least = facts.problem.rules.whole("least_human_waste_g")
    missing = least - waste.waste_g_per_person_night
    if missing > 0 and not waste.may_be_left and facts.timeline.nights:
        yield Finding(
            RULE,
            f"{waste.waste_g_per_person_night} g of human waste are planned for a person and "
            f"night, {least} g is the least that comes down",
            missing,
            "g",
            (),
            (
                f"plan {least} g of waste for a person and night",
                "say that waste may be left, where the land manager allows it",
            ),
        )
