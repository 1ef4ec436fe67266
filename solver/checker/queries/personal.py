"""What people have of their own: whether a thing is with its owner wherever that is."""

from __future__ import annotations

from solver.checker.ledger.facts import Facts
from solver.checker.queries.parties import CARRIED
from solver.problem import Item, NeedKind, Purpose, Trip

CLOTHING = frozenset(
    {
        Purpose.SLEEPING_BAG,
        Purpose.SLEEPING_PAD,
        Purpose.DRY_LAYER,
        Purpose.WARM_JACKET,
        Purpose.SHELL_CLOTHING,
        Purpose.GLOVES,
        Purpose.MITTS,
        Purpose.SPARE_MITTS,
        Purpose.EYE_PROTECTION,
        Purpose.COLD_CLOTHING,
    }
)
"""Purposes of what keeps a person warm; a person with none of it has given no clothing."""

AT_HAND = frozenset(
    {
        Purpose.RUCKSACK,
        Purpose.HEADLAMP,
        Purpose.FLASK,
        Purpose.GLOVES,
        Purpose.MITTS,
        Purpose.SPARE_MITTS,
        Purpose.EYE_PROTECTION,
        Purpose.MEDICATION,
        Purpose.INJECTOR,
    }
)
"""Purposes of what is of use to nobody unless they have it on them."""

LAYERS = frozenset({Purpose.WARM_JACKET, Purpose.SHELL_CLOTHING, Purpose.COLD_CLOTHING})

NIGHTLY = frozenset({*CARRIED, NeedKind.EVERY_NIGHT})


def reaches(facts: Facts, item: Item, place_id: str) -> bool:
    """Whether a place is within the part of the route where an item is needed."""
    need, route = item.need, facts.problem.route
    far_enough = need.from_place is None or route.is_at_or_beyond(place_id, need.from_place)
    near_enough = need.up_to in {None, place_id} or not route.is_at_or_beyond(
        place_id, str(need.up_to)
    )
    return far_enough and near_enough


def with_owner_on(facts: Facts, item: Item, trip: Trip) -> bool:
    """Whether a thing must be with its owner on a trip of that person."""
    if item.need.kind is NeedKind.WORN:
        return True
    return item.need.kind in CARRIED and facts.needs.must_ride(item, trip)


def with_owner_at(facts: Facts, item: Item, place_id: str) -> bool:
    """Whether a thing must be where its owner sleeps, on nights at a place."""
    if item.need.kind is NeedKind.WORN:
        return True
    return item.need.kind in NIGHTLY and reaches(facts, item, place_id)


def nights_of(facts: Facts, person_id: str) -> list[str]:
    """The places where a person sleeps, in order of first nights."""
    return list(dict.fromkeys(n.place_of(person_id) for n in facts.timeline.nights))


def trips_of(facts: Facts, person_id: str) -> list[Trip]:
    """A person's trips, in order."""
    return [trip for trip in facts.timeline.trips if person_id in trip.person_ids]


def always_with(facts: Facts, item: Item) -> bool:
    """Whether a personal thing is with its owner on every trip and every night."""
    owner = item.owner_id or ""
    return all(with_owner_on(facts, item, trip) for trip in trips_of(facts, owner)) and all(
        with_owner_at(facts, item, place) for place in nights_of(facts, owner)
    )


def lists_clothing(facts: Facts, person_id: str) -> bool:
    """Whether any clothing or sleeping kit of a person is listed."""
    return any(i.owner_id == person_id and i.purpose in CLOTHING for i in facts.problem.gear)


def keeps_alive(item: Item) -> bool:
    """Whether a personal thing must be on its owner, warm or cold."""
    return item.purpose in AT_HAND


def cold_asks_for(facts: Facts, item: Item, trip: Trip) -> bool:
    """Whether a warm layer must be on its owner on a trip.

    It must where the colder end is colder than the layer is for, where it is not given how cold
    either end is, and on the trip that brings the owner to a night with it.
    """
    if item.purpose not in LAYERS:
        return False
    places = [facts.problem.route.place(end) for end in (trip.from_place, trip.to_place)]
    known = [p.night_temperature_c for p in places if p.night_temperature_c is not None]
    limit_c = item.needed_below_c
    if limit_c is not None:
        return not known or min(known) < limit_c
    limit_c = facts.problem.rules.number("warm_layers_below_c")
    return not known or min(known) < limit_c or _ends_in_its_night(facts, item, trip)


def _ends_in_its_night(facts: Facts, item: Item, trip: Trip) -> bool:
    """Whether a trip is the owner's last of a day and ends where the thing is needed overnight."""
    days = [one.index for one in trips_of(facts, item.owner_id or "") if one.day == trip.day]
    if not days or days[-1] != trip.index or trip.day > len(facts.timeline.nights):
        return False
    return item.need.kind in NIGHTLY and reaches(facts, item, trip.to_place)
