"""Big step prepared: a long step to a higher camp follows rest below and a carry to that elevation.

For each night above the threshold that is higher than all before it, and higher by more than
`big_step_m` than the one before: nights in a row at the lower elevation >= `big_step_nights`, and
the highest point of an earlier day >= elevation of the new camp - `carry_short_m`.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.elevations import Rise, Sleepers, read_sleepers, rises
from solver.plan import Finding

RULE = "big_step_prepared"


def big_step_prepared(facts: Facts) -> Iterator[Finding]:
    """Nights that a long step lacks below it, and metres that the carry before it lacks."""
    rules = facts.problem.rules
    step_m, least_nights = rules.whole("big_step_m"), rules.whole("big_step_nights")
    for sleepers in read_sleepers(facts):
        for rise in rises(facts, sleepers):
            if rise.to_m - rise.from_m <= step_m:
                continue
            if rise.stayed < least_nights:
                yield _finding(
                    sleepers,
                    rise,
                    amount=least_nights - rise.stayed,
                    unit="nights",
                    words=f"{rise.stayed} nights at {rise.from_place} before it, "
                    f"{least_nights} are the least",
                    instead=f"stay {least_nights} nights at {rise.from_place}",
                )
            short_m = rise.to_m - rules.whole("carry_short_m") - rise.reached_m
            if short_m > 0:
                yield _finding(
                    sleepers,
                    rise,
                    amount=short_m,
                    unit="m",
                    words=f"nobody had been higher than {rise.reached_m} m before",
                    instead=f"carry to {rise.to_place} and back to sleep, on a day before",
                )


def _finding(
    sleepers: Sleepers, rise: Rise, *, amount: int, unit: str, words: str, instead: str
) -> Finding:
    return Finding(
        RULE,
        f"{rise.from_place} to {rise.to_place} on day {rise.day}, {sleepers.who}: a step of "
        f"{rise.to_m - rise.from_m} m, and {words}",
        amount,
        unit,
        (("day", rise.day), ("place", rise.to_place), ("person", sleepers.person_ids[0])),
        (instead, f"sleep at a camp between {rise.from_place} and {rise.to_place}"),
    )
