"""What must become of each kind of unit in a tiny world, read straight from the problem.

The exhaustive search and the benchmarks' textbook model use this; it knows nothing of the
model or of the checker. Units that nobody could tell apart are one kind, and a kind's story
says how many there are at the start, what each night takes, makes and asks of them, which trips
they must ride, and where they must stand after which moment. It is one long file because it
must be read against the meaning of a problem as a whole.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field

from solver.problem import (
    Container,
    CookGroup,
    Item,
    NeedKind,
    Night,
    Problem,
    Purpose,
    ReserveKind,
    Timeline,
    Trip,
)
from solver.quantities import even_parts, fuel_mass_nearest, share_up, units_up

SLEEPING_KIT = frozenset({Purpose.SLEEPING_BAG, Purpose.SLEEPING_PAD, Purpose.DRY_LAYER})
WARM_LAYERS = frozenset({Purpose.WARM_JACKET, Purpose.SHELL_CLOTHING, Purpose.COLD_CLOTHING})
VITAL_KIT = frozenset(
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


@dataclass
class NightStep:
    """One night of one kind: units asked for before use, change of the stock, units kept."""

    all_at: str | None = None
    needed: dict[str, int] = field(default_factory=lambda: defaultdict(int))
    change: dict[str, int] = field(default_factory=lambda: defaultdict(int))
    kept: dict[str, int] = field(default_factory=lambda: defaultdict(int))


@dataclass
class Kind:
    """Interchangeable units and their story; loads are those of one unit [g, mL] by trip.

    `left_ml` is what is left in an open container after each night; `on_owner` are the trips on
    which nobody but the owner may have a unit, `too_far` those that no unit may ride.
    """

    name: str
    start_count: int
    load_on: list[tuple[int, int]]
    nights: list[NightStep]
    owner_id: str | None = None
    apart_kind: str | None = None
    fuel_of: str | None = None
    content_ml: int = 0
    left_ml: list[int] = field(default_factory=list)
    must_ride: set[int] = field(default_factory=set)
    day_kit: set[int] = field(default_factory=set)
    on_owner: set[int] = field(default_factory=set)
    too_far: set[int] = field(default_factory=set)
    contains: frozenset[str] = frozenset()
    gear_fuel: bool = False
    kit_of_team: str | None = None
    stands_at: dict[int, str] = field(default_factory=dict)


@dataclass(frozen=True)
class FuelKept:
    """Fuel of a cook group in unopened containers that stays at a place after a night [mL]."""

    night: int
    place_id: str
    cook_group_id: str
    fuel_ml: int


class Stories:
    """The kinds of a problem and its fuel reserves; `impossible` when the fuel cannot last."""

    def __init__(self, problem: Problem, timeline: Timeline) -> None:
        self.problem, self.timeline = problem, timeline
        self.kinds: dict[str, Kind] = {}
        self.fuel_kept: list[FuelKept] = []
        self.impossible = False
        for item in problem.gear:
            if item.need.kind is not NeedKind.WORN:
                self._tell_item(item)
        for group in problem.cook_groups:
            self._tell_food(group)
            self._tell_fuel(group)
        self._tell_sacks()

    def _kind(self, name: str, start_count: int, mass_g: int, volume_ml: int) -> Kind:
        if name not in self.kinds:
            self.kinds[name] = Kind(
                name=name,
                start_count=start_count,
                load_on=[(mass_g, volume_ml)] * len(self.timeline.trips),
                nights=[NightStep() for _ in self.timeline.nights],
            )
        return self.kinds[name]

    # Items

    def _people_of(self, item: Item) -> list[str]:
        if item.owner_id is not None:
            return [item.owner_id]
        team = item.rope_team_id
        return [p.person_id for p in self.problem.roster if team in (None, p.rope_team_id)]

    def _tell_item(self, item: Item) -> None:
        kind = self._kind(item.unit_id, item.count, item.mass_g, item.packed_volume_ml)
        kind.owner_id, kind.apart_kind = item.owner_id, item.apart_kind
        people = self._people_of(item)
        kind.gear_fuel = item.purpose is Purpose.FUEL and item.owner_id is None
        if item.purpose in (Purpose.ROPE, Purpose.RESCUE_KIT, Purpose.MEDICAL_KIT):
            kind.kit_of_team = item.rope_team_id
        kind.on_owner = {t.index for t in self.timeline.trips if self._is_vital(item, t)}
        kind.too_far = {
            t.index for t in self.timeline.trips if self._is_past(t.to_place, item.need.up_to)
        }
        if item.need.kind is NeedKind.AT_PLACE:
            self._tell_place_item(item, kind, people)
            return
        for number, night in enumerate(self.timeline.nights):
            place = night.place_of(people[0])
            if self._is_past(place, item.need.up_to):
                kind.nights[number].all_at = item.need.up_to
            elif self._is_reached(place, item.need.from_place) or not item.need.may_go_ahead:
                kind.nights[number].all_at = place
        if item.need.kind is NeedKind.EVERY_TRIP:
            self._tell_rides(item, kind, people)

    def _is_vital(self, item: Item, trip: Trip) -> bool:
        """Whether a personal thing must be on its owner, if anywhere, on a trip."""
        if item.owner_id is None or item.purpose not in VITAL_KIT | WARM_LAYERS:
            return False
        if item.purpose in VITAL_KIT:
            return True
        limit_c = item.needed_below_c
        ends = (self.problem.route.place(p) for p in (trip.from_place, trip.to_place))
        told_c = [p.night_temperature_c for p in ends if p.night_temperature_c is not None]
        default_c = self.problem.rules.number("warm_layers_below_c")
        if not told_c or min(told_c) < (default_c if limit_c is None else limit_c):
            return True
        own = [t for t in self.timeline.trips if item.owner_id in t.person_ids]
        last = [t for t in own if t.day == trip.day][-1:] == [trip]
        tonight = last and trip.day <= len(self.timeline.nights) and limit_c is None
        return (
            tonight
            and item.need.kind is not NeedKind.AT_PLACE
            and self._is_reached(trip.to_place, item.need.from_place)
            and not self._is_past(trip.to_place, item.need.up_to)
        )

    def _is_past(self, place: str, mark: str | None) -> bool:
        route = self.problem.route
        return mark is not None and place != mark and route.is_at_or_beyond(place, mark)

    def _is_reached(self, place: str, mark: str | None) -> bool:
        return mark is None or self.problem.route.is_at_or_beyond(place, mark)

    def _tell_rides(self, item: Item, kind: Kind, people: list[str]) -> None:
        for trip in self.timeline.trips:
            ends = (trip.from_place, trip.to_place)
            if not set(people) & set(trip.person_ids):
                continue
            if any(self._is_past(end, item.need.up_to) for end in ends):
                continue
            enough = all if item.need.may_go_ahead else any
            if not enough(self._is_reached(end, item.need.from_place) for end in ends):
                continue
            kind.must_ride.add(trip.index)
            if item.owner_id is not None:
                kind.day_kit.add(trip.index)
                if item.purpose not in SLEEPING_KIT:
                    kind.on_owner.add(trip.index)
            if trip.leg.mode in item.in_use_on:
                kind.load_on[trip.index] = (0, 0)

    def _tell_place_item(self, item: Item, kind: Kind, people: list[str]) -> None:
        place = item.need.up_to
        assert place is not None
        theirs = [t for t in self.timeline.trips if set(people) & set(t.person_ids)]
        leaves = [t for t in theirs if t.from_place == place]
        homeward = self.problem.route.homeward()
        stay: list[Night] = []
        for night in self.timeline.nights:
            if any(self._is_reached(night.place_of(p), place) for p in people) and (
                not stay or stay[-1].day + 1 == night.day
            ):
                stay.append(night)
        due = stay[-1:] if item.need.may_follow else stay[:1]
        nights_there = [night.moment for night in due]
        departs_beyond = [t.moment - 1 for t in leaves if t.to_place != homeward.get(place)]
        first = min(nights_there + departs_beyond)
        last = max(t.moment for t in leaves if t.to_place == homeward.get(place))
        for moment in range(first, last):
            kind.stands_at[moment] = place
        if not item.need.may_go_ahead:
            for number, night in enumerate(self.timeline.nights):
                if night.moment < first:
                    kind.nights[number].all_at = night.place_of(people[0])

    # Food and fuel

    def _group_nights(self, group: CookGroup) -> Iterator[tuple[int, Night, str, int]]:
        members = self.problem.members(group.cook_group_id)
        for number, night in enumerate(self.timeline.nights):
            yield number, night, night.place_of(members[0].person_id), len(members)

    def _reserve_nights(self, group: CookGroup) -> Iterator[tuple[int, str, str, int]]:
        """Night, place, set and person-nights of each reserve that must stand after a night."""
        route = self.problem.route
        rows = list(self._group_nights(group))
        for reserve in self.problem.reserves:
            if reserve.cook_group_id != group.cook_group_id:
                continue
            place = reserve.place_id
            at_it = [number for number, _, slept, _ in rows if slept == place]
            beyond = [number for number, _, slept, _ in rows if route.is_at_or_beyond(slept, place)]
            held = {
                ReserveKind.STORM: at_it,
                ReserveKind.EVACUATION: at_it,
                ReserveKind.BASE_WAIT: [number for number, *_ in rows],
                ReserveKind.DESCENT: list(range(at_it[0], beyond[-1] + 1)) if at_it else [],
            }[reserve.kind]
            for number in held:
                people = rows[number][3]
                if reserve.kind is ReserveKind.EVACUATION and reserve.people is not None:
                    people = min(people, reserve.people)
                yield number, place, reserve.set_id, reserve.nights * people

    def _tell_food(self, group: CookGroup) -> None:
        group_id = group.cook_group_id
        sets = {s.set_id: s for s in self.problem.night_sets if s.cook_group_id == group_id}
        for night_set in sets.values():
            per_bag = night_set.sets_per_bag
            bag_g, bag_ml = night_set.gross_g * per_bag, night_set.volume_ml * per_bag
            self._kind(night_set.unit_id, 0, bag_g, bag_ml)
        used: dict[str, int] = defaultdict(int)
        for number, _, place, people in self._group_nights(group):
            night_set = sets[group.set_id_at(place)]
            bags = units_up(amount=people, per_unit=night_set.sets_per_bag)
            step = self.kinds[night_set.unit_id].nights[number]
            step.needed[place] += bags
            step.change[place] -= bags
            used[night_set.set_id] += bags
        kept_sets: dict[tuple[int, str, str], int] = defaultdict(int)
        for number, place, set_id, person_nights in self._reserve_nights(group):
            kept_sets[number, place, set_id] += person_nights
        most: dict[tuple[str, str], int] = defaultdict(int)
        for (number, place, set_id), amount in kept_sets.items():
            bags = units_up(amount=amount, per_unit=sets[set_id].sets_per_bag)
            self.kinds[sets[set_id].unit_id].nights[number].kept[place] = bags
            most[set_id, place] = max(most[set_id, place], bags)
        for night_set in sets.values():
            # More than this many could serve no purpose; what serves none can stay at the start.
            spare = sum(n for (set_id, _), n in most.items() if set_id == night_set.set_id)
            enough = used[night_set.set_id] + spare
            count = enough if night_set.bag_count is None else night_set.bag_count
            self.kinds[night_set.unit_id].start_count = count

    def _fuel_ml(self, group: CookGroup, set_id: str, person_nights: int) -> int:
        per_night_ml = self.problem.night_set(group.cook_group_id, set_id).fuel_ml
        percent = 100 + self.problem.fuel_margin_percent
        return share_up(amount=person_nights * per_night_ml, percent=percent)

    def _tell_fuel(self, group: CookGroup) -> None:
        kept: dict[tuple[int, str], int] = defaultdict(int)
        for number, place, set_id, person_nights in self._reserve_nights(group):
            kept[number, place] += self._fuel_ml(group, set_id, person_nights)
        self.fuel_kept += [
            FuelKept(number, place, group.cook_group_id, fuel_ml)
            for (number, place), fuel_ml in kept.items()
            if fuel_ml > 0
        ]
        most: dict[str, int] = defaultdict(int)
        for (_, place), fuel_ml in kept.items():
            most[place] = max(most[place], fuel_ml)
        for container in group.containers:
            full = self._kind(container.unit_id, 0, self._mass_g(container, None), 0)
            full.load_on = [(self._mass_g(container, None), container.volume_ml)] * len(
                full.load_on
            )
            full.fuel_of, full.content_ml = group.cook_group_id, container.content_ml
        opened = self._burn(group)
        for container in group.containers:
            per_unit = container.content_ml
            spare = sum(units_up(amount=ml, per_unit=per_unit) for ml in most.values())
            enough = opened[container.container_id] + spare
            count = enough if container.count is None else container.count
            self.kinds[container.unit_id].start_count = count

    def _mass_g(self, container: Container, left_ml: int | None) -> int:
        volume_ml = container.content_ml if left_ml is None else left_ml
        density = self.problem.fuel_density_g_per_l
        fuel_g = fuel_mass_nearest(volume_ml=volume_ml, density_g_per_l=density)
        return container.tare_g + fuel_g

    def _burn(self, group: CookGroup) -> dict[str, int]:
        """Open and drain containers night by night; how many of each were opened."""
        opened: dict[str, int] = defaultdict(int)
        current: Container | None = None
        left_ml = 0
        open_kind = self._kind(f"{group.cook_group_id}/open", 0, 0, 0)
        open_kind.fuel_of = group.cook_group_id
        for number, night, place, people in self._group_nights(group):
            step = open_kind.nights[number]
            step.all_at = place
            need_ml = self._fuel_ml(group, group.set_id_at(place), people)
            was_open = left_ml > 0
            while need_ml > 0:
                if left_ml == 0:
                    current = self._next_container(group, opened)
                    if current is None:
                        self.impossible = True
                        return opened
                    opened[current.container_id] += 1
                    left_ml = current.content_ml
                    full = self.kinds[current.unit_id].nights[number]
                    full.needed[place] += 1
                    full.change[place] -= 1
                drawn_ml = min(left_ml, need_ml)
                left_ml -= drawn_ml
                need_ml -= drawn_ml
                if left_ml == 0 and current is not None:
                    self._add_inert(current.tare_g, current.volume_ml, number, place)
            open_kind.left_ml.append(left_ml)
            if (left_ml > 0) != was_open:
                step.change[place] = 1 if left_ml > 0 else -1
            if current is not None and left_ml > 0:
                load = (self._mass_g(current, left_ml), current.volume_ml)
                for trip in self.timeline.trips:
                    if trip.day > night.day:
                        open_kind.load_on[trip.index] = load
        return opened

    @staticmethod
    def _next_container(group: CookGroup, opened: dict[str, int]) -> Container | None:
        for container in group.containers:
            if container.count is None or opened[container.container_id] < container.count:
                return container
        return None

    # What is left behind

    def _add_inert(
        self,
        mass_g: int,
        volume_ml: int,
        number: int,
        place: str,
        contains: frozenset[str] = frozenset(),
    ) -> None:
        name = f"left {mass_g} g {volume_ml} mL {sorted(contains)}"
        kind = self._kind(name, 0, mass_g, volume_ml)
        kind.contains = contains
        kind.nights[number].change[place] += 1

    def _tell_sacks(self) -> None:
        waste = self.problem.waste
        nights = self.timeline.nights
        groups = {person.cook_group_id for person in self.problem.roster}
        apart = len(groups) > 1 and any(person.reacts_to for person in self.problem.roster)
        for place in {p for night in nights for _, p in night.sleeps_at}:
            trash_g: dict[str, int] = defaultdict(int)
            contains: dict[str, set[str]] = defaultdict(set)
            waste_g = 0
            for number, night in enumerate(nights):
                sleepers = night.sleepers_at(place)
                for person_id in sleepers:
                    group = self.problem.cook_group(self.problem.person(person_id).cook_group_id)
                    set_id = group.set_id_at(place)
                    night_set = self.problem.night_set(group.cook_group_id, set_id)
                    whose = group.cook_group_id if apart else ""
                    trash_g[whose] += night_set.packaging_g
                    contains[whose] |= set(night_set.contains) if apart else set()
                    waste_g += waste.waste_g_per_person_night
                goes_on = number + 1 < len(nights) and nights[number + 1].sleepers_at(place)
                if sleepers and not goes_on:
                    for whose, total_g in trash_g.items():
                        inside = frozenset(contains[whose])
                        for part_g in even_parts(total=total_g, largest=waste.trash_sack_g):
                            volume_ml = part_g * waste.trash_ml_per_g
                            self._add_inert(part_g, volume_ml, number, place, inside)
                    for part_g in even_parts(total=waste_g, largest=waste.human_waste_sack_g):
                        self._add_inert(part_g, part_g * waste.human_waste_ml_per_g, number, place)
                    trash_g, contains, waste_g = defaultdict(int), defaultdict(set), 0


def lunch_g(problem: Problem, timeline: Timeline, trip: Trip, person_id: str) -> int:
    """Travel lunch that a person carries on a trip [g]."""
    person = problem.person(person_id)
    if trip.day == 1:
        return person.first_lunch_g
    slept = timeline.nights[trip.day - 2].place_of(person_id)
    set_id = problem.cook_group(person.cook_group_id).set_id_at(slept)
    return problem.night_set(person.cook_group_id, set_id).lunch_g
