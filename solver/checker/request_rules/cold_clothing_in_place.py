"""Cold clothing in place: what a cold place asks for is with its owner there.

For each personal item that is needed below a temperature: on each night at a place colder than
that, the item is where its owner sleeps; and unless it is for sleeping, it is with its owner on
each trip to or from such a place, so neither ahead nor behind.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.personal import nights_of, trips_of, with_owner_at, with_owner_on
from solver.checker.queries.telling import trip_words
from solver.plan import Finding
from solver.problem import Item, Purpose

RULE = "cold_clothing_in_place"

FOR_SLEEPING = frozenset({Purpose.SLEEPING_BAG, Purpose.SLEEPING_PAD, Purpose.DRY_LAYER})


def cold_clothing_in_place(facts: Facts) -> Iterator[Finding]:
    """Items that may be missing where it is cold, with the first such trip or night."""
    for item in facts.problem.gear:
        if item.needed_below_c is None or item.owner_id is None:
            continue
        without = [*_trips_without(facts, item), *_nights_without(facts, item)]
        if without:
            yield Finding(
                RULE,
                f"{item.item_id} is needed where it is colder than {item.needed_below_c:g} °C, but "
                f"need not be with {item.owner_id} {without[0]}"
                + (f" and {len(without) - 1} times more" if len(without) > 1 else ""),
                item.count,
                "units",
                (("person", item.owner_id), ("unit", item.unit_id)),
                (
                    f"{item.item_id} with the need for every trip, from a place before the cold",
                    f"{item.item_id} worn",
                ),
            )


def _cold(facts: Facts, item: Item, place_id: str) -> bool:
    there_c = facts.problem.route.place(place_id).night_temperature_c
    return there_c is not None and item.needed_below_c is not None and there_c < item.needed_below_c


def _trips_without(facts: Facts, item: Item) -> Iterator[str]:
    if item.purpose in FOR_SLEEPING:
        return
    for trip in trips_of(facts, item.owner_id or ""):
        is_cold = _cold(facts, item, trip.from_place) or _cold(facts, item, trip.to_place)
        if is_cold and not with_owner_on(facts, item, trip):
            yield f"on {trip_words(trip)}"


def _nights_without(facts: Facts, item: Item) -> Iterator[str]:
    for place_id in nights_of(facts, item.owner_id or ""):
        if _cold(facts, item, place_id) and not with_owner_at(facts, item, place_id):
            yield f"at night at {place_id}"
