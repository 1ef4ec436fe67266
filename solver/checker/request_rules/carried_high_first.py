"""Carried high first: before each move to sleep higher the party was near the new elevation.

For each night above the threshold that is higher than all before it: the highest point of an
earlier day >= elevation of the new camp - `carry_short_m`. The amount is in metres.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.elevations import read_sleepers, rises
from solver.plan import Finding

RULE = "carried_high_first"


def carried_high_first(facts: Facts) -> Iterator[Finding]:
    """Metres by which the days before a move stayed too low."""
    short = facts.problem.rules.whole("carry_short_m")
    for sleepers in read_sleepers(facts):
        for rise in rises(facts, sleepers):
            missing_m = rise.to_m - short - rise.reached_m
            if missing_m > 0:
                yield Finding(
                    RULE,
                    f"{rise.to_place}, day {rise.day}, {sleepers.who}: before they sleep at "
                    f"{rise.to_m} m they were no higher than {rise.reached_m} m",
                    missing_m,
                    "m",
                    (
                        ("day", rise.day),
                        ("place", rise.to_place),
                        ("person", sleepers.person_ids[0]),
                    ),
                    (f"carry to within {short} m of {rise.to_place} on a day before",),
                )
