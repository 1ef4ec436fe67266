"""Cargo lengths given: where an aircraft's longest thing is given, every item's length is.

The amount is how many kinds of items that are not worn say no length.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.plan import Finding
from solver.problem import NeedKind

RULE = "cargo_lengths_given"

_NAMED = 5


def cargo_lengths_given(facts: Facts) -> Iterator[Finding]:
    """Things whose length is not given, in one finding."""
    if all(flight.longest_mm is None for flight in facts.problem.flights):
        return
    silent = [
        item.unit_id
        for item in facts.problem.gear
        if item.need.kind is not NeedKind.WORN and item.length_mm is None
    ]
    if silent:
        more = f" and {len(silent) - _NAMED} more" if len(silent) > _NAMED else ""
        yield Finding(
            RULE,
            f"how long these are is not given, so they are taken to go in: "
            f"{', '.join(silent[:_NAMED])}{more}",
            len(silent),
            "things",
        )
