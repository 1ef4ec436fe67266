"""Sled only on sled legs: each load has the sled that its person hauls there, and no other.

A sled is hauled on a trip exactly when the leg is a sled leg, its hauler is of the party and
it stands where the trip leaves. The amount counts the units on a sled that is not hauled
there, and at least the sled itself.

Documents: sled-log, sled-article.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.telling import trip_where, trip_words
from solver.plan import Finding, Load
from solver.problem import Trip

RULE = "sled_only_on_sled_legs"


def sled_only_on_sled_legs(replay: Replay) -> Iterator[Finding]:
    """Sleds hauled where they cannot be, and sleds left where they must be hauled."""
    haulers = {sled.sled_id: sled.hauler_id for sled in replay.facts.problem.sleds}
    for record in replay.records:
        hauled = {
            b.person.person_id: None if b.sled is None else b.sled.sled_id for b in record.burdens
        }
        for load in record.planned.loads if record.planned is not None else ():
            # What is on a stranger's sled is for units_ride_with_people.
            if load.person_id in hauled:
                yield from _of_load(record.trip, load, hauled[load.person_id], haulers)


def _of_load(
    trip: Trip, load: Load, hauled: str | None, haulers: dict[str, str]
) -> Iterator[Finding]:
    units = sum(max(stowed.count, 0) for stowed in load.sled)
    if load.sled_id == hauled and (hauled is not None or units == 0):
        return
    planned = "a sled without a name" if load.sled_id is None else f"sled {load.sled_id}"
    if load.sled_id is None and units == 0:
        amount = 1
        words = f"sled {hauled} goes with {load.person_id} on this leg, the plan leaves it"
    else:
        amount = max(units, 1)
        rightly = "no sled" if hauled is None else f"sled {hauled}"
        words = f"{load.person_id} hauls {planned} with {units} units, but {rightly} is hauled here"
        owner = haulers.get(load.sled_id or "", load.person_id)
        if owner != load.person_id:
            words += f"; {planned} is {owner}'s: each sled has its own hauler in the request"
    sled_id = load.sled_id or hauled
    yield Finding(
        RULE,
        f"{trip_words(trip)}: {words}",
        amount,
        "units",
        (
            *trip_where(trip),
            ("person", load.person_id),
            *((("sled", sled_id),) if sled_id is not None else ()),
        ),
    )
