"""What keeps a person alive rides with that person, whoever else may take their things.

Rucksack, headlamp, gloves and mitts, eye protection, flask and medication: units with anybody
but the owner = 0 on every trip. Warm layers: the same on each trip t with the colder end of its
leg below what the layer is needed below, or with neither end's temperature known; and, where the
layer says no temperature of its own, on the owner's last trip before each night on which it is
needed.
"""

from __future__ import annotations

from solver.model.instance.placement import need_of
from solver.model.instance.world import World
from solver.model.rows import OwnRow
from solver.problem import Item, NeedKind, Purpose, Trip

VITAL = frozenset(
    {
        Purpose.RUCKSACK,
        Purpose.HEADLAMP,
        Purpose.GLOVES,
        Purpose.MITTS,
        Purpose.SPARE_MITTS,
        Purpose.EYE_PROTECTION,
        Purpose.FLASK,
        Purpose.MEDICATION,
        Purpose.INJECTOR,
    }
)
WARM = frozenset({Purpose.WARM_JACKET, Purpose.SHELL_CLOTHING, Purpose.COLD_CLOTHING})


def build(world: World) -> list[OwnRow]:
    """One row for each personal item that is vital, or warm on some trip."""
    rows = []
    for cargo in world.cargo:
        item = cargo.item
        if item is None or item.owner_id is None:
            continue
        if item.purpose in VITAL:
            rows.append(OwnRow("vital_kit_on_owner", cargo.index, (item.owner_id,)))
        elif item.purpose in WARM:
            trips = frozenset(t.index for t in world.timeline.trips if _asked(world, item, t))
            rows.append(OwnRow("vital_kit_on_owner", cargo.index, (item.owner_id,), trips=trips))
    return [row for row in rows if row.trips is None or row.trips]


def _asked(world: World, item: Item, trip: Trip) -> bool:
    """Whether the cold of a trip, or of the night at its end, asks for a warm layer."""
    below_c = item.needed_below_c
    if below_c is None:
        below_c = world.problem.rules.number("warm_layers_below_c")
    ends = (world.problem.route.place(p) for p in (trip.from_place, trip.to_place))
    told_c = [place.night_temperature_c for place in ends if place.night_temperature_c is not None]
    if not told_c or min(told_c) < below_c:
        return True
    return item.needed_below_c is None and _worn_tonight(world, item, trip)


def _worn_tonight(world: World, item: Item, trip: Trip) -> bool:
    """Whether a trip is its owner's last before a night on which an item is needed."""
    owner_id = item.owner_id or ""
    if owner_id not in trip.person_ids or (trip.day, owner_id) not in world.sleeps:
        return False
    later = (t for t in world.timeline.trips[trip.index + 1 :] if t.day == trip.day)
    if any(owner_id in t.person_ids for t in later):
        return False
    nightly = item.need.kind in (NeedKind.EVERY_NIGHT, NeedKind.EVERY_TRIP)
    return nightly and need_of(world, item).place_for_night(trip.day) == trip.to_place
