"""All trips of an expedition at once, with what links each unit's trips to one another."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from solver.model.assignment.by_trip import by_trip, join
from solver.model.assignment.draft import Draft
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import spread_slack
from solver.model.goals.mixed_loads import RULE, is_food, is_fuel
from solver.model.goals.named_keepers import RULE as KEEPER_RULE
from solver.model.goals.named_keepers import keeper_on
from solver.model.goals.soft_constraint import SoftConstraints
from solver.model.goals.steady.weakest import weakest
from solver.model.goals.swap_counts import may_swap, swap_weight
from solver.model.goals.violations import Violations, read_violations
from solver.model.packing.held_trip import load_trip
from solver.model.packing.trip_load import Bools, Floats, Ints, TripLoad
from solver.quantities import FRACTION_GRID

Neighbour = tuple[int, int]
"""Another trip on which a unit rides next or rode last, and what a swap between them counts."""


@dataclass(slots=True)
class OneTrip:
    """A trip with P pieces, C carriers and R rows.

    `most` (R + 1,) is what each row may hold under the trip's `limit` [1/10,000], `person` (C,)
    whose each carrier is. `rows` (C, R + 1) says which rows each carrier counts in, `amount`
    (P, R + 1) what each piece adds to one. `kinds` (2, P) are the pieces that hold fuel and that
    are food, none where the request does not ask for these apart; `kinds_in` (2, C) are their
    sums. `away` (P, C) is 1 where a piece with a keeper on the trip would be with somebody else.
    `on_weak` (C,) are the carriers of whoever has the least cap, `on_sled` (C,) are sleds.
    `neighbours` are those of each unit that can change hands.
    """

    load: TripLoad
    limit: int
    most: Ints
    person: Ints
    rows: Bools
    amount: Ints
    kinds: Ints
    kinds_in: Ints
    away: Floats
    on_weak: Bools
    on_sled: Bools
    violations: Violations
    neighbours: dict[str, list[Neighbour]]
    _broken: Bools | None = None

    def put(self, piece: int, carrier: int) -> None:
        """Put a piece into a carrier, out of the one where it was; all sums stay up to date."""
        if self.load.where[piece] >= 0:
            self.take_out(piece)
        self._count(piece, carrier, 1)
        self.load.put(piece, carrier)

    def take_out(self, piece: int) -> None:
        """Take a piece out of its carrier."""
        load, home = self.load, int(self.load.where[piece])
        self._count(piece, home, -1)
        rows = load.rows_of[home]
        load.load[rows] -= np.where(load.of_mass[rows], load.mass[piece], load.volume[piece])
        load.load[-1] = 0
        load.counted[:, home] -= load.member[:, piece]
        load.where[piece] = -1

    def _count(self, piece: int, carrier: int, sign: int) -> None:
        violations = self.violations
        mass, equipment = self.load.mass[piece], violations.is_equipment[piece]
        violations.value += sign * violations.by_mass[:, carrier] * mass
        violations.value += sign * violations.by_equipment[:, carrier] * equipment
        self.kinds_in[:, carrier] += sign * self.kinds[:, piece]
        self._broken = None

    def broken_at(self) -> Bools:
        """Carriers that take part in a broken preference (C,)."""
        if self._broken is None:
            violations, at = self.violations, self.kinds_in.min(axis=0) > 0
            broken = violations.value > 0
            if broken.any():
                at |= (violations.by_mass[broken] != 0).any(axis=0)
                at |= (violations.by_equipment[broken] != 0).any(axis=0)
            self._broken = at
        return self._broken


@dataclass(slots=True)
class Expedition:
    """Every trip, and for each unit that can change hands its pieces by trip.

    `bundles` are ids of small alike things that ride together.
    """

    trips: list[OneTrip]
    pieces: Mapping[str, Mapping[int, Ints]]
    people: int
    bundles: frozenset[str]

    def held_by(self, unit_id: str, trip: int) -> Ints:
        """How many units each person has on a trip (people,)."""
        one = self.trips[trip]
        carriers = one.load.where[self.pieces[unit_id][trip]]
        return np.bincount(one.person[carriers], minlength=self.people)

    def weight(self, unit_id: str, earlier: int, later: int) -> int:
        """What a swap between two trips counts; 1 where other trips lie between them."""
        return dict(self.trips[earlier].neighbours.get(unit_id, ())).get(later, 1)

    def part(self, trips: AbstractSet[int]) -> Expedition:
        """Some of the trips as if the unit rode on no others; the loads are the same objects."""
        pieces = {
            unit_id: {trip: its for trip, its in on_trips.items() if trip in trips}
            for unit_id, on_trips in self.pieces.items()
        }
        return replace(self, pieces={unit_id: its for unit_id, its in pieces.items() if its})

    def draft(self) -> Draft:
        """The draft that the loads make."""
        return join([one.load.held() for one in self.trips])


def read_expedition(
    frame: Frame, draft: Draft, constraints: SoftConstraints, limits: Sequence[int]
) -> Expedition:
    """A draft's trips as arrays, each with its limit [1/10,000]."""
    number = {person.person_id: at for at, person in enumerate(frame.world.problem.everybody)}
    slack, weak = spread_slack(frame, draft.rides()), weakest(frame.world.problem)
    trips = []
    for trip, held in enumerate(by_trip(frame, draft)):
        load = load_trip(frame, trip, held, slack[trip])
        whose = {carrier.carrier_id: carrier.person_id for carrier in frame.carriers[trip]}
        sleds = {carrier.carrier_id for carrier in frame.carriers[trip] if carrier.is_sled}
        trips.append(
            OneTrip(
                load=load,
                limit=limits[trip],
                most=_most(load, limits[trip]),
                person=np.array([number[whose[c]] for c in load.carriers], dtype=np.int64),
                rows=_rows(load),
                amount=_amount(load),
                kinds=(kinds := _kinds(frame, load)),
                kinds_in=_kinds_in(load, kinds),
                away=_away(frame, trip, load),
                on_weak=np.array([whose[c] in weak for c in load.carriers], dtype=bool),
                on_sled=np.array([c in sleds for c in load.carriers], dtype=bool),
                violations=read_violations(load, constraints[trip]),
                neighbours={},
            )
        )
    pieces = _pieces(frame, trips)
    _link(frame, trips, pieces)
    bundles = frozenset(one.unit_id for one in frame.world.problem.gear if one.is_bundle)
    return Expedition(trips, pieces, len(number), bundles)


def _most(load: TripLoad, limit: int) -> Ints:
    up_to = np.minimum(load.cap, limit * load.cap // FRACTION_GRID)
    most: Ints = np.where(load.scale > 0, up_to, load.cap)
    return most


def _rows(load: TripLoad) -> Bools:
    rows = np.zeros((len(load.carriers), len(load.cap)), dtype=bool)
    np.put_along_axis(rows, load.rows_of, values=True, axis=1)
    rows[:, -1] = False
    return rows


def _amount(load: TripLoad) -> Ints:
    amount = np.where(load.of_mass, load.mass[:, None], load.volume[:, None])
    amount[:, -1] = 0
    return amount


def _kinds(frame: Frame, load: TripLoad) -> Ints:
    if not frame.world.problem.asks(RULE):
        return np.zeros((2, len(load.cargo)), dtype=np.int64)
    cargo = [frame.world.cargo[index] for index in load.cargo.tolist()]
    kinds = [[test(thing) for thing in cargo] for test in (is_fuel, is_food)]
    return np.array(kinds, dtype=np.int64).reshape(2, len(cargo))


def _away(frame: Frame, trip: int, load: TripLoad) -> Floats:
    away = np.zeros(load.able.shape)
    if frame.world.problem.asks(KEEPER_RULE):
        whose = {carrier.carrier_id: carrier.person_id for carrier in frame.carriers[trip]}
        people = [whose[carrier_id] for carrier_id in load.carriers]
        for piece, cargo in enumerate(load.cargo.tolist()):
            keeper_id = keeper_on(frame, cargo, trip)
            if keeper_id is not None:
                away[piece] = [person_id != keeper_id for person_id in people]
    return away


def _kinds_in(load: TripLoad, kinds: Ints) -> Ints:
    kinds_in = np.zeros((2, len(load.carriers)), dtype=np.int64)
    for row in range(2):
        np.add.at(kinds_in[row], load.where, kinds[row])
    return kinds_in


def _pieces(frame: Frame, trips: Sequence[OneTrip]) -> dict[str, dict[int, Ints]]:
    found: dict[str, dict[int, list[int]]] = {}
    for trip, one in enumerate(trips):
        for piece, cargo in enumerate(one.load.cargo.tolist()):
            thing = frame.world.cargo[cargo]
            if may_swap(thing):
                found.setdefault(thing.unit_id, {}).setdefault(trip, []).append(piece)
    return {
        unit_id: {trip: np.array(its, dtype=np.int64) for trip, its in on_trips.items()}
        for unit_id, on_trips in found.items()
    }


def _link(frame: Frame, trips: Sequence[OneTrip], pieces: Mapping[str, Mapping[int, Ints]]) -> None:
    things = {thing.unit_id: thing for thing in frame.world.cargo}
    for unit_id, on_trips in pieces.items():
        for earlier, later in pairwise(sorted(on_trips)):
            weight = swap_weight(frame, things[unit_id], earlier, later)
            trips[earlier].neighbours.setdefault(unit_id, []).append((later, weight))
            trips[later].neighbours.setdefault(unit_id, []).append((earlier, weight))
