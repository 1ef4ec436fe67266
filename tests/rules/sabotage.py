"""Ways to spoil a plan by hand: what a slip of the pen does to a load, a trip or the stock."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from itertools import product
from random import Random

from solver.plan import Load, Plan, Stowed, TripLoads

Row = tuple[int, str, bool]
"""A trip by its index, a person, and whether the sled is meant."""


@dataclass(frozen=True)
class Entry:
    """One entry of one load: where it stands and what it says."""

    row: Row
    stowed: Stowed


def entries(plan: Plan) -> Iterator[Entry]:
    """Every entry of every load."""
    for index, trip in enumerate(plan.trips):
        for load, on_sled in product(trip.loads, (False, True)):
            for stowed in load.sled if on_sled else load.pack:
                yield Entry((index, load.person_id, on_sled), stowed)


def without_stock(plan: Plan) -> Plan:
    """The plan as somebody edits it, with loads and nothing else."""
    return replace(plan, stock=())


def weight_in(plan: Plan, unit_id: str, trip: int | None = None) -> tuple[int, int]:
    """What the plan says one of a unit weighs and takes, on a trip or on the first it rides."""
    for entry in entries(plan):
        if entry.stowed.unit_id == unit_id and trip in {None, entry.row[0]}:
            return entry.stowed.mass_g, entry.stowed.volume_ml
    return 100, 100


def put(
    plan: Plan, row: Row, unit_id: str, count: int, weight: tuple[int, int] | None = None
) -> Plan:
    """The plan with so many more of a unit in a pack or on a sled, fewer where negative."""
    weight = weight or weight_in(plan, unit_id)

    def change(stowed: tuple[Stowed, ...]) -> tuple[Stowed, ...]:
        old = [s for s in stowed if s.unit_id == unit_id]
        kept = tuple(s for s in stowed if s.unit_id != unit_id)
        total = sum(s.count for s in old) + count
        mine = (old[0].mass_g, old[0].volume_ml) if old else weight
        return (*kept, Stowed(unit_id, total, *mine)) if total else kept

    return in_load(
        plan,
        row[:2],
        lambda load: (
            replace(load, sled=change(load.sled))
            if row[2]
            else replace(load, pack=change(load.pack))
        ),
    )


def shift(plan: Plan, unit_id: str, source: Row, target: Row, count: int = 1) -> Plan:
    """The plan with units moved from one load to another."""
    weight = weight_in(plan, unit_id, source[0])
    return put(put(plan, source, unit_id, -count), target, unit_id, count, weight)


def in_load(plan: Plan, row: tuple[int, str], change: Callable[[Load], Load]) -> Plan:
    """The plan with one person's load on one trip changed."""

    def in_trip(trip: TripLoads) -> TripLoads:
        loads = tuple(change(x) if x.person_id == row[1] else x for x in trip.loads)
        return replace(trip, loads=loads)

    return in_trip_of(plan, row[0], in_trip)


def in_trip_of(plan: Plan, index: int, change: Callable[[TripLoads], TripLoads]) -> Plan:
    """The plan with one trip changed."""
    trips = tuple(change(t) if i == index else t for i, t in enumerate(plan.trips))
    return replace(plan, trips=trips)


WORDS = ("", "strip", "c1", "c9", "m1", "m9", "s1", "s9", "rope", "g1/low", "g1/can/open-1", "x/y")
NUMBERS = (-(10**9), -1, 0, 1, 2, 7, 10**9)


def garbled(plan: Plan, chance: Random) -> Plan:
    """The plan with one field of one part replaced, or a part dropped or doubled, by chance.

    The change is never one that leaves the plan as right as it was: a store or trip is dropped
    or doubled, or a name or number becomes one that it was not.
    """
    part = chance.choice(("trips", "loads", "units", "stock"))
    if part in {"loads", "units"} and any(trip.loads for trip in plan.trips):
        index = chance.choice([i for i, trip in enumerate(plan.trips) if trip.loads])
        return in_trip_of(plan, index, lambda trip: _garbled_trip(trip, part, chance))
    rows = list(plan.stock if part == "stock" else plan.trips)
    if not rows:
        return replace(plan, trips=(TripLoads(0, 0, "", "", ()),))
    position = chance.randrange(len(rows))
    field = "place_id" if part == "stock" else "to_place"
    match chance.randrange(3):
        case 0:
            rows.append(replace(rows[position], day=chance.choice(NUMBERS) + 40))
        case 1:
            rows[position] = replace(rows[position], **{field: chance.choice(WORDS) + "?"})
        case _:
            rows[position] = replace(rows[position], day=chance.choice(NUMBERS) + 30)
    return replace(plan, **{"stock" if part == "stock" else "trips": tuple(rows)})


def _garbled_trip(trip: TripLoads, part: str, chance: Random) -> TripLoads:
    loads = list(trip.loads)
    position = chance.randrange(len(loads))
    load = loads[position]
    if part == "loads":
        match chance.randrange(4):
            case 0:
                loads.append(load)
            case 1:
                loads[position] = replace(load, person_id=chance.choice(WORDS) + "?")
            case 2:
                loads[position] = replace(load, water_g=load.water_g + 1)
            case _:
                loads[position] = replace(load, sled_id=chance.choice(WORDS) + "?")
    else:
        new = Stowed(
            chance.choice(WORDS) + chance.choice(("?", "/9")),
            chance.choice((-3, 1, 10**9)),
            chance.choice(NUMBERS),
            chance.choice(NUMBERS),
        )
        where = chance.choice(("pack", "sled"))
        loads[position] = replace(load, **{where: (*getattr(load, where), new)})
    return replace(trip, loads=tuple(loads))
