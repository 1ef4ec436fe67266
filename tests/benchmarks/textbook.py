"""The textbook model: who carries how much of what on which trip, and what stands where when.

What a competent modeller writes down from the ledger's rules without first thinking the
problem through: a whole number for every class of units, trip and carrier, a stock for every
class and place that changes with each moment of travel and each night, and one row for each
thing that the rules say. Every class may ride every trip, up or down, as often as it likes.
Food and fuel used each night follow from the calendar and are worked out beforehand, as is
what each night leaves behind; that reading (tests/pipeline/unit_stories.py) is independent of
the model that it is raced against.

    n[k,t,c]  units of class k on trip t in carrier c, a pack or a sled
    s[k,p,e]  units of class k at place p after event e, a moment of travel or a night
    Z         the peak load fraction, minimised
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field

from solver.problem import Person, Problem, Sled, Trip, read_timeline
from solver.quantities import share_down
from tests.benchmarks.race_models import Amount, RaceModel
from tests.pipeline.unit_stories import Kind, Stories, lunch_g


@dataclass(frozen=True)
class Bin:
    """A pack, or with `sled` the sled of its hauler."""

    person: Person
    sled: Sled | None = None

    @property
    def name(self) -> str:
        """The person's id, or the sled's behind a word that no person's id begins with."""
        return self.person.person_id if self.sled is None else f"sled/{self.sled.sled_id}"


def write_textbook(problem: Problem, model: RaceModel) -> bool:
    """Write the textbook model down; whether there can be a plan as far as fuel goes."""
    writer = _Writer(problem, model)
    if writer.stories.impossible:
        return False
    writer.write()
    return True


@dataclass
class _Writer:
    """The model as it grows, event by event; `stock` is what stands where by now."""

    problem: Problem
    model: RaceModel
    stock: dict[tuple[str, str], Amount] = field(default_factory=dict)
    existing: dict[str, int] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.timeline = read_timeline(self.problem)
        self.stories = Stories(self.problem, self.timeline)
        self.kinds = self.stories.kinds
        self.places = [place.place_id for place in self.problem.route.places]
        self.off = self.problem.rules.switched_off

    def write(self) -> None:
        start = self.problem.start_place
        for name, kind in self.kinds.items():
            self.existing[name] = kind.start_count
            for place in self.places:
                self.stock[name, place] = kind.start_count if place == start else 0
        self._stands_after(0)
        self._nights_of(0)
        for moment in range(1, self.timeline.last_moment + 1):
            self._travel([trip for trip in self.timeline.trips if trip.moment == moment])
            self._stands_after(moment)
            self._nights_of(moment)
        for name in self.kinds:
            self.model.add_count([(self.stock[name, start], 1)], at_least=self.existing[name])

    # Moments of travel

    def _travel(self, trips: list[Trip]) -> None:
        """All trips of one moment: they leave together, before any of them arrives."""
        flow: dict[tuple[str, str], list[tuple[Amount, int]]] = defaultdict(list)
        for trip in trips:
            bins = self._bins(trip)
            held = {
                name: self._ride(kind, trip, bins)
                for name, kind in self.kinds.items()
                if self.existing[name]
            }
            for name, parts in held.items():
                flow[name, trip.from_place] += [(part, -1) for part in parts.values()]
                flow[name, trip.to_place] += [(part, 1) for part in parts.values()]
            for carrier in bins:
                self._limit(trip, carrier, held)
            self._spread(bins, held)
        for (name, place), terms in flow.items():
            out = [(part, factor) for part, factor in terms if factor < 0]
            self.model.add_count([(self.stock[name, place], 1), *out], at_least=0)
        for (name, place), terms in flow.items():
            after = self.model.whole(self.existing[name])
            balance = [(self.stock[name, place], 1), *terms, (after, -1)]
            self.model.add_count(balance, at_least=0, exactly=True)
            self.stock[name, place] = after

    def _bins(self, trip: Trip) -> list[Bin]:
        people = [self.problem.person(person_id) for person_id in trip.person_ids]
        by_id = {person.person_id: person for person in people}
        sleds = [sled for sled in self.problem.sleds if sled.sled_id in trip.sled_ids]
        return [Bin(p) for p in people] + [Bin(by_id[s.hauler_id], s) for s in sleds]

    def _ride(self, kind: Kind, trip: Trip, bins: list[Bin]) -> dict[str, Amount]:
        """Units of a class by carrier: its owner's only, in the pack when it is day kit."""
        parts: dict[str, Amount] = {}
        if trip.index in kind.too_far:
            return parts
        for carrier in bins:
            if kind.owner_id not in (None, carrier.person.person_id):
                continue
            if carrier.sled is not None and trip.index in kind.day_kit:
                continue
            parts[carrier.name] = self.model.whole(self.existing[kind.name])
        if trip.index in kind.must_ride:
            every = [(part, 1) for part in parts.values()]
            self.model.add_count(every, at_least=self.existing[kind.name], exactly=True)
        return parts

    def _limit(self, trip: Trip, carrier: Bin, held: dict[str, dict[str, Amount]]) -> None:
        """Caps on mass and volume of one carrier, and of pack and sled together."""

        def load(which: int, *bins: Bin) -> Iterator[tuple[Amount, int]]:
            for name, parts in held.items():
                weight = self.kinds[name].load_on[trip.index][which]
                if weight:
                    yield from ((parts[one.name], weight) for one in bins if one.name in parts)

        person, sled, factor = carrier.person, carrier.sled, trip.sled_factor_percent
        caps = person.caps
        body_g = person.water_g + lunch_g(self.problem, self.timeline, trip, person.person_id)
        if sled is None:
            percent = 100 + self.problem.rules.pack_volume_allowance_percent
            room_ml = share_down(amount=person.pack_volume_ml, percent=percent)
            pack_g = caps.pack_on(trip.leg.mode, trip.direction)
            self.model.add_load(load(0, carrier), fixed=body_g, cap=pack_g, in_fraction=True)
            self.model.add_load(load(1, carrier), fixed=0, cap=room_ml, in_fraction=False)
            return
        own_g = share_down(amount=caps.sled_g, percent=factor)
        limit_g = share_down(amount=sled.mass_limit_g, percent=factor)
        tare_g = sled.tare_g
        self.model.add_load(load(0, carrier), fixed=tare_g, cap=own_g, in_fraction=True)
        self.model.add_load(load(0, carrier), fixed=tare_g, cap=limit_g, in_fraction=False)
        self.model.add_load(load(1, carrier), fixed=0, cap=sled.volume_ml, in_fraction=False)
        if caps.total_g is not None:
            both = load(0, carrier, Bin(person))
            self.model.add_load(both, fixed=body_g + tare_g, cap=caps.total_g, in_fraction=True)

    def _spread(self, bins: list[Bin], held: dict[str, dict[str, Amount]]) -> None:
        """No kind all in one carrier; no carrier with more than half of a kitchen's fuel."""
        apart: dict[str, list[str]] = defaultdict(list)
        fuel: dict[str, list[str]] = defaultdict(list)
        for name in held:
            kind = self.kinds[name]
            if kind.apart_kind is not None and "kinds_kept_apart" not in self.off:
                apart[kind.apart_kind].append(name)
            if kind.fuel_of is not None and "fuel_spread" not in self.off:
                fuel[kind.fuel_of].append(name)
        for names in apart.values():
            total = [(part, 1) for name in names for part in held[name].values()]
            most = sum(self.existing[name] for name in names)
            if most < 2:
                continue
            several = self.model.whole(1)
            # More than one of them makes it 1; made 1 for fewer, it would only be in the way.
            self.model.add_count(_less([(several, most - 1)], total), at_least=-1)
            for carrier in bins:
                mine = [(p[carrier.name], 1) for n in names if carrier.name in (p := held[n])]
                self.model.add_count([*total, *_less([(several, -1)], mine)], at_least=0)
        for names in fuel.values():
            total = [(part, 1) for name in names for part in held[name].values()]
            for carrier in bins:
                mine = [(p[carrier.name], 2) for n in names if carrier.name in (p := held[n])]
                self.model.add_count(_less(total, mine), at_least=-1)

    # Standing and nights

    def _stands_after(self, moment: int) -> None:
        """What belongs at a place stands there."""
        for name, kind in self.kinds.items():
            place = kind.stands_at.get(moment)
            if place is not None:
                there = [(self.stock[name, place], 1)]
                self.model.add_count(there, at_least=self.existing[name])

    def _nights_of(self, moment: int) -> None:
        """Each night after a moment: what is asked for, used, left behind and kept."""
        for number, night in enumerate(self.timeline.nights):
            if night.moment != moment:
                continue
            for name, kind in self.kinds.items():
                step = kind.nights[number]
                if step.all_at is not None and self.existing[name]:
                    there = [(self.stock[name, step.all_at], 1)]
                    self.model.add_count(there, at_least=self.existing[name])
                for place, units in step.change.items():
                    if units:
                        self._change(name, place, units)
                for place, units in step.kept.items():
                    self.model.add_count([(self.stock[name, place], 1)], at_least=units)
            self._keep_fuel(number)

    def _keep_fuel(self, number: int) -> None:
        """Fuel reserves of a night, in full containers of any kind."""
        for kept in self.stories.fuel_kept:
            if kept.night == number:
                full = [
                    (self.stock[name, kept.place_id], kind.content_ml)
                    for name, kind in self.kinds.items()
                    if kind.fuel_of == kept.cook_group_id and kind.content_ml
                ]
                self.model.add_count(full, at_least=kept.fuel_ml)

    def _change(self, name: str, place: str, units: int) -> None:
        """Units used up (below 0) or left behind (above) at a place in a night.

        No more are used than stand there, since what is left is never below nothing.
        """
        self.existing[name] += units
        before = self.stock[name, place]
        after = self.model.whole(max(0, self.existing[name]))
        self.model.add_count([(before, 1), (after, -1)], at_least=-units, exactly=True)
        self.stock[name, place] = after


def _less(
    terms: list[tuple[Amount, int]], taken: list[tuple[Amount, int]]
) -> list[tuple[Amount, int]]:
    """Terms with others taken off."""
    return [*terms, *((units, -factor) for units, factor in taken)]
