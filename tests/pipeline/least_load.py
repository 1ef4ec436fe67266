"""The least load fraction with which a party can carry given units on one trip, by trying all.

Only the exhaustive search uses this. A *bundle* is a count for each kind that may ride the
trip, coded as one number in mixed radix, so that the code of a difference of bundles is the
difference of their codes.
"""

from __future__ import annotations

import numpy as np

from solver.problem import Person, PlaceKind, Problem, Sled, Timeline, Trip
from solver.quantities import FRACTION_GRID, share_down
from tests.pipeline.unit_stories import Kind, lunch_g

NEVER = 1 << 30
"""A load that breaks a limit."""

Codes = np.ndarray


class LeastLoad:
    """Least load fractions of one trip [1/10,000] for the bundles that are asked for."""

    def __init__(
        self, problem: Problem, timeline: Timeline, trip: Trip, kinds: list[Kind], most: list[int]
    ) -> None:
        self.problem, self.timeline, self.trip = problem, timeline, trip
        self.kinds, self.most = kinds, most
        self.strides = [1] * len(kinds)
        for index in range(1, len(kinds)):
            self.strides[index] = self.strides[index - 1] * (most[index - 1] + 1)
        self.size = int(np.prod([n + 1 for n in most], dtype=np.int64)) if kinds else 1
        codes = np.arange(self.size)
        self.counts = [codes // s % (n + 1) for s, n in zip(self.strides, most, strict=True)]
        self.steps = [s * np.arange(n + 1) for s, n in zip(self.strides, most, strict=True)]
        loads = [kind.load_on[trip.index] for kind in kinds]
        zero = np.zeros(self.size, dtype=np.int64)
        self.mass_g = sum((c * m for c, (m, _) in zip(self.counts, loads, strict=True)), zero)
        self.volume_ml = sum((c * v for c, (_, v) in zip(self.counts, loads, strict=True)), zero)
        off = problem.rules.switched_off
        self.spread: list[tuple[str, Codes]] = []
        if "kinds_kept_apart" not in off:
            for name in sorted({k.apart_kind for k in kinds if k.apart_kind is not None}):
                self.spread.append(("apart", self._count(lambda k, n=name: k.apart_kind == n)))
        if "fuel_spread" not in off:
            for name in sorted({k.fuel_of for k in kinds if k.fuel_of is not None}):
                self.spread.append(("fuel", self._count(lambda k, n=name: k.fuel_of == n)))
            self.spread.append(("fuel", self._count(lambda k: k.gear_fuel)))
        self.people = [problem.person(p) for p in trip.person_ids]
        self._person_tables: dict[tuple[str, tuple[int, ...]], Codes] = {}
        self._answers: dict[tuple[int, tuple[int, ...]], int] = {}

    def _count(self, belongs) -> Codes:
        zero = np.zeros(self.size, dtype=np.int64)
        return sum((c for c, k in zip(self.counts, self.kinds, strict=True) if belongs(k)), zero)

    def __call__(self, bundle: int, rooms: tuple[int, ...] = ()) -> int:
        """Least fraction with which the party carries a bundle; `NEVER` when it cannot.

        `rooms` say how much one pack or sled may have of each thing that may be lost.
        """
        key = bundle, rooms
        if key not in self._answers:
            self._answers[key] = self._solve(bundle, rooms)
        return self._answers[key]

    def _solve(self, bundle: int, rooms: tuple[int, ...]) -> int:
        limits = []
        left = iter(rooms)
        for rule, count in self.spread:
            of_them = int(count[bundle])
            if rule == "apart":
                limits.append(of_them - 1 if of_them >= 2 else of_them)
            elif rule == "single":
                limits.append(1)
            elif rule == "loss":
                limits.append(next(left))
            else:
                limits.append((of_them + 1) // 2)
        shares = self._parts(bundle)
        tables = [self._person_table(person, tuple(limits)) for person in self.people]
        if len(tables) == 1:
            return int(tables[0][bundle])
        if len(tables) == 2:
            return int(np.maximum(tables[0][shares], tables[1][bundle - shares]).min())
        raise NotImplementedError("tiny worlds have parties of one or two")

    def _parts(self, bundle: int) -> Codes:
        """Codes of all bundles that are part of one."""
        parts = np.zeros(1, dtype=np.int64)
        for count, steps in zip(self.counts, self.steps, strict=True):
            own = int(count[bundle])
            if own:
                parts = (parts[:, None] + steps[: own + 1]).ravel()
        return parts

    def _person_table(self, person: Person, limits: tuple[int, ...]) -> Codes:
        """For every bundle the least fraction with which one person carries all of it."""
        key = (person.person_id, limits)
        if key not in self._person_tables:
            pack = self._pack_table(person)
            self._keep_pins(pack, person, on_sled=False)
            sleds = [s for s in self.problem.sleds if s.sled_id in self.trip.sled_ids]
            own = next((s for s in sleds if s.hauler_id == person.person_id), None)
            too_many = np.zeros(self.size, dtype=bool)
            for limit, (_, count) in zip(limits, self.spread, strict=True):
                too_many |= count > limit
            pack[too_many] = NEVER
            if own is not None:
                sled = self._sled_table(person, own)
                self._keep_pins(sled, person, on_sled=True)
                sled[too_many] = NEVER
                pack = self._split(person, own, pack, sled)
            for kind, count in zip(self.kinds, self.counts, strict=True):
                if not self._may_carry(kind, person):
                    pack[count > 0] = NEVER
            if person.load_limit_g is not None:
                gross_g = self.mass_g + self._dead_g(person) + (own.tare_g if own else 0)
                pack = np.maximum(pack, self._fractions(gross_g, person.load_limit_g))
                most_g = self._first_most_g(person.load_limit_g)
                if most_g is not None:
                    pack[gross_g > most_g] = NEVER
            self._person_tables[key] = pack
        return self._person_tables[key]

    def _keep_pins(self, table: Codes, person: Person, *, on_sled: bool) -> None:
        """Rule out bundles with less than what the request pins to a person's pack or sled."""
        counts = {kind.name: count for kind, count in zip(self.kinds, self.counts, strict=True)}
        for pin in self.problem.pins:
            step = (pin.day, pin.step, pin.person_id, pin.on_sled)
            if step == (self.trip.day, self.trip.step, person.person_id, on_sled):
                table[counts.get(pin.unit_id, np.zeros(self.size)) < pin.count] = NEVER

    def _first_most_g(self, cap_g: int) -> int | None:
        """The share of a cap that may be used; a rule of glaciers, so none here [g]."""
        return None

    def _may_carry(self, kind: Kind, person: Person) -> bool:
        """Whether units of a kind may be with a person at all."""
        if kind.kit_of_team not in (None, person.rope_team_id):
            return False
        if kind.owner_id in (None, person.person_id):
            return True
        if self.trip.index in kind.on_owner:
            return False
        owner = self.problem.person(kind.owner_id)
        return owner.kit_to_rope_team and owner.rope_team_id == person.rope_team_id

    def _dead_g(self, person: Person) -> int:
        day = self.problem.calendar.days[self.trip.day - 1]
        kinds = {self.problem.route.place(p).kind for p in day.visit_of(person.rope_team_id).places}
        water_g = person.water_g
        if person.summit_water_g is not None and PlaceKind.SUMMIT in kinds:
            water_g = person.summit_water_g
        return water_g + lunch_g(self.problem, self.timeline, self.trip, person.person_id)

    def _fractions(self, load_g: Codes, cap_g: int) -> Codes:
        """Shares of a cap, rounded up to the grid; `NEVER` above it."""
        if cap_g == 0:
            return np.where(load_g > 0, NEVER, 0)
        return np.where(load_g > cap_g, NEVER, -(-load_g * FRACTION_GRID // cap_g))

    def _pack_table(self, person: Person) -> Codes:
        cap_g = person.caps.pack_on(self.trip.leg.mode, self.trip.direction)
        table = self._fractions(self.mass_g + self._dead_g(person), cap_g)
        percent = 100 + self.problem.rules.pack_volume_allowance_percent
        table[self.volume_ml > share_down(amount=person.pack_volume_ml, percent=percent)] = NEVER
        return table

    def _sled_table(self, person: Person, sled: Sled) -> Codes:
        factor = self.trip.sled_factor_percent
        gross_g = self.mass_g + sled.tare_g
        table = self._fractions(gross_g, share_down(amount=person.caps.sled_g, percent=factor))
        table[gross_g > share_down(amount=sled.mass_limit_g, percent=factor)] = NEVER
        table[self.volume_ml > sled.volume_ml] = NEVER
        for kind, count in zip(self.kinds, self.counts, strict=True):
            if self.trip.index in kind.day_kit:
                table[count > 0] = NEVER
        return table

    def _split(self, person: Person, sled: Sled, pack: Codes, on_sled: Codes) -> Codes:
        """The better of all divisions of each bundle between a person's pack and sled."""
        shape = tuple(n + 1 for n in reversed(self.most))
        best = np.full(self.size, NEVER, dtype=np.int64).reshape(shape)
        one, other = sorted((pack, on_sled), key=lambda table: np.count_nonzero(table < NEVER))
        grid, codes = other.reshape(shape), np.flatnonzero(one < NEVER)
        if codes.size:
            # The other one can have no more of a kind than this, so nothing beyond is tried.
            within = other < NEVER
            room = [int(count[within].max()) + 1 for count in reversed(self.counts)]
            columns = [count[codes].tolist() for count in reversed(self.counts)]
            for fraction, *own in zip(one[codes].tolist(), *columns, strict=True):
                ends = [min(n, k + r) for n, k, r in zip(shape, own, room, strict=True)]
                whole = tuple(map(slice, own, ends))
                rest = tuple([slice(0, end - k) for end, k in zip(ends, own, strict=True)])
                reached = best[whole]
                np.minimum(reached, np.maximum(grid[rest], fraction), out=reached)
        table = best.reshape(self.size)
        if person.caps.total_g is not None:
            total_g = self.mass_g + self._dead_g(person) + sled.tare_g
            table = np.maximum(table, self._fractions(total_g, person.caps.total_g))
        return table


def least_possible(mass_g: Codes, least: LeastLoad) -> Codes:
    """A fraction that no way of carrying these masses beats: all limits used in full."""
    dead_g = room_g = 0
    trip, problem = least.trip, least.problem
    for person in least.people:
        pack_g = person.caps.pack_on(trip.leg.mode, trip.direction)
        dead_g += least._dead_g(person)
        room_g += pack_g
        for sled in problem.sleds:
            if sled.hauler_id == person.person_id and sled.sled_id in trip.sled_ids:
                dead_g += sled.tare_g
                room_g += share_down(amount=person.caps.sled_g, percent=trip.sled_factor_percent)
    if room_g == 0:
        return np.where(mass_g + dead_g > 0, NEVER, 0)
    return (mass_g + dead_g) * FRACTION_GRID // room_g
