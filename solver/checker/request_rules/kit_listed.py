"""Kit listed: the gear has a stove, a pot, a shelter and a communicator at least.

For each of these purposes, units listed >= 1.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.listed_gear import units_of
from solver.checker.queries.words import WORDS
from solver.plan import Finding
from solver.problem import Purpose

RULE = "kit_listed"

WHOLE_TRIP = (Purpose.STOVE, Purpose.POT, Purpose.SHELTER, Purpose.COMMUNICATOR)
"""What nobody lives without on a glacier, wherever they are."""


def kit_listed(facts: Facts) -> Iterator[Finding]:
    """Name what no item of the gear is good for."""
    for purpose in WHOLE_TRIP:
        if not units_of(facts, purpose):
            word = WORDS[purpose]
            yield Finding(
                RULE,
                f"no {word} is listed in the gear, on a glacier at least one is needed",
                1,
                "units",
                (("purpose", purpose.value),),
                (
                    f"a {word} in the gear",
                    f'"{purpose.value}" as the purpose of the item that is one, if it is listed',
                ),
            )
