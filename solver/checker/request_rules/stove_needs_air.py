"""Stove needs air: a stove in a tent or snow shelter poisons without open vents.

Wherever a stove burns on any night. The amount is `vent_cm2`, the least area of each of two vents.
Carbon monoxide can be dangerous within half an hour.

Documents: carbon-monoxide-tents, camp-medicine-guide.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.cold_fuel import cooking_nights
from solver.plan import Finding

RULE = "stove_needs_air"


def stove_needs_air(facts: Facts) -> Iterator[Finding]:
    """A word on carbon monoxide, once for the whole trip."""
    if cooking_nights(facts):
        area = facts.problem.rules.whole("vent_cm2")
        yield Finding(
            RULE,
            "a stove in a tent or snow shelter makes carbon monoxide, which kills and does not "
            f"smell, within half an hour: keep a low and a high vent open, {area} cm2 each at "
            "least, clear of snow",
            area,
            "cm2",
        )
