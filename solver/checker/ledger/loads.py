"""The loads of a plan set beside the trips of the calendar, weighed again."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass

from solver.plan import Load, Plan, Stowed, TripLoads
from solver.problem import Person, Sled, Timeline, Trip

Weights = Mapping[str, tuple[int, int]]
"""Mass and volume that one of each unit adds to a load [g, mL]; 0 for what is in use."""

NO_NAME = "without a name"
"""What a sled is called that has units on it and no id."""


@dataclass(frozen=True, slots=True)
class Carrier:
    """One pack, or one sled when `sled_id` is given, and the known units in it.

    Mass and volume are those of the units alone [g, mL].
    """

    person_id: str
    sled_id: str | None
    counts: Counter[str]
    mass_g: int
    volume_ml: int

    @property
    def name(self) -> str:
        """The carrier in words."""
        if self.sled_id is None:
            return f"pack of {self.person_id}"
        return f"sled {self.sled_id} of {self.person_id}"


@dataclass(frozen=True, slots=True)
class Burden:
    """All that one member of a party moves on a trip; `sled` is what the calendar has hauled.

    `pulls` are all who haul that sled with their shares [per cent], the member first. `harness`
    is the sled that the member pulls, as first or as second, with the member's share [per cent].
    """

    person: Person
    water_g: int
    lunch_g: int
    pack: Carrier
    sled: Sled | None
    on_sled: Carrier
    pulls: tuple[tuple[Person, int], ...] = ()
    harness: tuple[Sled, int] | None = None

    @property
    def pack_g(self) -> int:
        """Gross mass of the pack [g]."""
        return self.pack.mass_g + self.water_g + self.lunch_g

    @property
    def sled_g(self) -> int:
        """Gross mass of the sled, its tare included; 0 where none is hauled [g]."""
        return 0 if self.sled is None else self.sled.tare_g + self.on_sled.mass_g


@dataclass(frozen=True, slots=True)
class TripRecord:
    """A trip of the calendar and what the plan loads on it; `planned` is None for nothing.

    `carriers` are the packs and sleds with anything in them, those on people outside the party
    included; `counts` is how many of each unit ride.
    """

    trip: Trip
    planned: TripLoads | None
    weights: Weights
    burdens: tuple[Burden, ...]
    carriers: tuple[Carrier, ...]
    counts: Counter[str]


def match_trips(
    timeline: Timeline, plan: Plan
) -> tuple[dict[int, TripLoads], tuple[TripLoads, ...]]:
    """Find each trip's loads by day, step and places; the second part are loads of no trip.

    Where two parties make the same step together in time, the loads with the most members of
    the party are the ones.
    """
    free = dict(enumerate(plan.trips))
    found: dict[int, TripLoads] = {}
    for trip in timeline.trips:
        members = set(trip.person_ids)
        key = (trip.day, trip.step, trip.from_place, trip.to_place)
        fitting = {
            number: len(members & {load.person_id for load in loads.loads})
            for number, loads in free.items()
            if (loads.day, loads.step, loads.from_place, loads.to_place) == key
        }
        if fitting:
            found[trip.index] = free.pop(max(fitting, key=lambda number: fitting[number]))
    return found, tuple(free.values())


@dataclass(frozen=True, slots=True)
class Scales:
    """What one of each unit weighs on a trip, and which units there are at all."""

    weights: Weights
    known: AbstractSet[str]

    def carrier(self, person_id: str, sled_id: str | None, stowed: Iterable[Stowed]) -> Carrier:
        """Count and weigh what is stowed.

        Unknown units and counts below one are left out; what does not exist yet weighs nothing.
        """
        counts: Counter[str] = Counter()
        mass_g = volume_ml = 0
        for entry in stowed:
            if entry.count > 0 and entry.unit_id in self.known:
                counts[entry.unit_id] += entry.count
                one_g, one_ml = self.weights.get(entry.unit_id, (0, 0))
                mass_g += entry.count * one_g
                volume_ml += entry.count * one_ml
        return Carrier(person_id, sled_id, counts, mass_g, volume_ml)


def record_trip(
    trip: Trip,
    planned: TripLoads | None,
    *,
    people: Mapping[str, Person],
    sleds: Sequence[Sled],
    lunches: Mapping[tuple[str, int], int],
    waters: Mapping[tuple[str, int], int],
    scales: Scales,
) -> TripRecord:
    """Set a trip's loads beside its party; a member without a load carries water and lunch."""
    loads: dict[str, list[Load]] = {}
    for load in planned.loads if planned is not None else ():
        loads.setdefault(load.person_id, []).append(load)
    burdens: list[Burden] = []
    carriers: list[Carrier] = []
    for person_id in trip.person_ids:
        hauled = next(
            (s for s in sleds if s.hauler_id == person_id and s.sled_id in trip.sled_ids), None
        )
        pack, on_sled = _carriers(person_id, hauled, loads.pop(person_id, []), scales)
        carriers += [pack, on_sled]
        burdens.append(
            Burden(
                person=people[person_id],
                water_g=waters[person_id, trip.day],
                lunch_g=lunches.get((person_id, trip.day), 0),
                pack=pack,
                sled=hauled,
                on_sled=on_sled,
                pulls=tuple((people[who], part) for who, part in hauled.shares())
                if hauled is not None
                else (),
                harness=_harness(sleds, trip, person_id),
            )
        )
    for person_id, theirs in loads.items():
        for load in theirs:
            carriers += _carriers(person_id, None, [load], scales)
    carriers = [carrier for carrier in carriers if carrier.counts]
    counts: Counter[str] = Counter()
    for carrier in carriers:
        counts.update(carrier.counts)
    return TripRecord(trip, planned, scales.weights, tuple(burdens), tuple(carriers), counts)


def _harness(sleds: Sequence[Sled], trip: Trip, person_id: str) -> tuple[Sled, int] | None:
    """The sled that a person pulls on a trip, with the share of it [per cent]."""
    for sled in sleds:
        for who, percent in sled.shares():
            if who == person_id and sled.sled_id in trip.sled_ids:
                return sled, percent
    return None


def _carriers(
    person_id: str, hauled: Sled | None, loads: Sequence[Load], scales: Scales
) -> tuple[Carrier, Carrier]:
    """Somebody's pack and sled with all that their loads put there.

    A sled that the calendar does not have hauled keeps the name that the plan gives it.
    """
    named = next((load.sled_id for load in loads if load.sled_id is not None), NO_NAME)
    sled_id = named if hauled is None else hauled.sled_id
    return (
        scales.carrier(person_id, None, (s for load in loads for s in load.pack)),
        scales.carrier(person_id, sled_id, (s for load in loads for s in load.sled)),
    )
