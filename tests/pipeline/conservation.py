"""Do the grams of a plan add up?  A small replay of its own, apart from the checker's.

It trusts nothing but the problem's numbers: what stands at the start is moved by the loads as
they are listed and must be what the plan says stands there each night, less what was eaten
and burnt, and every gram of packaging and waste must turn up in a sack.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator

from solver.plan import NightStock, Plan
from solver.problem import CookGroup, Night, Problem, Trip, read_timeline
from solver.quantities import fuel_mass_nearest

Stands = Counter[tuple[str, str]]
"""How many of each unit stand at each place."""


def imbalances(problem: Problem, plan: Plan) -> list[str]:
    """What does not add up in a plan, in words; nothing when all does."""
    return list(_Ledger(problem, plan).follow())


class _Ledger:
    """One pass through a plan."""

    def __init__(self, problem: Problem, plan: Plan) -> None:
        self.problem, self.plan = problem, plan
        self.timeline = read_timeline(problem)
        self.stands, self.mass_g = self._listed(0)
        self.nights = {night.day: night for night in self.timeline.nights}
        self.people: Counter[str] = Counter(p.cook_group_id for p in problem.roster)
        self.burnt_ml: Counter[str] = Counter()
        self.to_be_sacked_g: Counter[str] = Counter()

    def _listed(self, day: int) -> tuple[Stands, dict[str, int]]:
        stands: Stands = Counter()
        mass_g: dict[str, int] = {}
        for entry in self.plan.stock:
            if entry.day == day:
                self._read(entry, stands, mass_g)
        return stands, mass_g

    @staticmethod
    def _read(entry: NightStock, stands: Stands, mass_g: dict[str, int]) -> None:
        for unit in entry.units:
            stands[entry.place_id, unit.unit_id] += unit.count
            mass_g[unit.unit_id] = unit.mass_g

    def follow(self) -> Iterator[str]:
        """Day after day: the trips, then what the night or the end leaves."""
        by_moment: dict[int, list[int]] = defaultdict(list)
        for trip in self.timeline.trips:
            by_moment[trip.moment].append(trip.index)
        if len(self.plan.trips) != len(self.timeline.trips):
            yield "the plan has other trips than the calendar"
            return
        for day in range(1, len(self.problem.calendar.days) + 1):
            for indices in by_moment.values():
                trips = [self.timeline.trips[index] for index in indices]
                if trips[0].day == day:
                    yield from self._move(trips)
            yield from self._pass_night(self.nights[day]) if day in self.nights else self._end(day)

    def _move(self, trips: list[Trip]) -> Iterator[str]:
        arriving: Stands = Counter()
        for trip in trips:
            for load in self.plan.trips[trip.index].loads:
                for unit in (*load.pack, *load.sled):
                    self.stands[trip.from_place, unit.unit_id] -= unit.count
                    arriving[trip.to_place, unit.unit_id] += unit.count
                    if unit.mass_g not in (0, self.mass_g.get(unit.unit_id)):
                        yield f"day {trip.day}: {unit.unit_id} weighs {unit.mass_g} g on the way"
            for (place, unit_id), count in self.stands.items():
                if count < 0:
                    yield f"day {trip.day}: {-count} more {unit_id} leave {place} than stand there"
        self.stands += arriving

    def _pass_night(self, night: Night) -> Iterator[str]:
        listed, mass_g = self._listed(night.day)
        kept = Counter({key: n for key, n in listed.items() if not self._is_new_sack(key[1])})
        before_g = self._dry_g(self.stands, self.mass_g)
        eaten_g = 0
        for group in self.problem.cook_groups:
            people = self.people[group.cook_group_id]
            members = self.problem.members(group.cook_group_id)
            place = night.place_of(members[0].person_id)
            night_set = self.problem.night_set(group.cook_group_id, group.set_id_at(place))
            self.stands[place, night_set.unit_id] -= people // night_set.sets_per_bag
            eaten_g += people * night_set.gross_g
            margin = 100 + self.problem.fuel_margin_percent
            self.burnt_ml[group.cook_group_id] += -(-people * night_set.fuel_ml * margin // 100)
            self.to_be_sacked_g[f"trash/{place}"] += people * night_set.packaging_g
            waste_g = self.problem.waste.waste_g_per_person_night
            self.to_be_sacked_g[f"human-waste/{place}"] += people * waste_g
            yield from self._weigh_fuel(group, listed, mass_g, night.day)
        for key in sorted(self.stands.keys() | kept.keys()):
            if not self._is_fuel(key[1]) and self.stands[key] != kept[key]:
                yield f"night {night.day}: {kept[key]} {key[1]} at {key[0]}, not {self.stands[key]}"
        for place in sorted({place for place, _ in self.stands.keys() | kept.keys()}):
            # A container that is opened or runs dry changes its name but not its place.
            had, has = self._containers(self.stands, place), self._containers(kept, place)
            if had != has:
                yield f"night {night.day}: {has} containers at {place}, not {had}"
        after_g = self._dry_g(kept, mass_g)
        if before_g - eaten_g != after_g:
            yield f"night {night.day}: {before_g} g less {eaten_g} g eaten are not {after_g} g"
        yield from self._fill_sacks(night, listed, mass_g)
        self.stands, self.mass_g = listed, mass_g

    def _dry_g(self, stands: Stands, mass_g: dict[str, int]) -> int:
        """Grams of everything but fuel and its containers."""
        return sum(n * mass_g[unit] for (_, unit), n in stands.items() if not self._is_fuel(unit))

    def _containers(self, stands: Stands, place: str) -> int:
        return sum(n for (at, unit), n in stands.items() if at == place and self._is_fuel(unit))

    def _is_fuel(self, unit_id: str) -> bool:
        """Whether an id is that of a container, full, open or empty."""
        full = {c.unit_id for group in self.problem.cook_groups for c in group.containers}
        return unit_id in full or unit_id.rpartition("/")[0] in full

    def _is_new_sack(self, unit_id: str) -> bool:
        return unit_id.startswith(("trash/", "human-waste/")) and unit_id not in self.mass_g

    def _weigh_fuel(
        self, group: CookGroup, listed: Stands, mass_g: dict[str, int], day: int
    ) -> Iterator[str]:
        """All containers of a group weigh what they did at the start less what was burnt."""
        start, start_mass_g = self._listed(0)
        density = self.problem.fuel_density_g_per_l
        full_ids = {c.unit_id: c for c in group.containers}
        at_start_g = 0
        burnt_g, left_ml = 0, self.burnt_ml[group.cook_group_id]
        for unit_id, container in full_ids.items():
            count = sum(n for (_, u), n in start.items() if u == unit_id)
            at_start_g += count * start_mass_g.get(unit_id, 0)
            while count and left_ml > 0:
                count -= 1
                kept_ml = max(0, container.content_ml - left_ml)
                left_ml -= container.content_ml
                burnt_g += fuel_mass_nearest(
                    volume_ml=container.content_ml, density_g_per_l=density
                ) - fuel_mass_nearest(volume_ml=kept_ml, density_g_per_l=density)
        now_g = sum(
            count * mass_g[unit_id]
            for (_, unit_id), count in listed.items()
            if unit_id in full_ids or unit_id.rpartition("/")[0] in full_ids
        )
        if now_g != at_start_g - burnt_g:
            wanted_g = at_start_g - burnt_g
            yield f"night {day}: fuel of {group.cook_group_id} is {now_g} g of {wanted_g}"

    def _fill_sacks(self, night: Night, listed: Stands, mass_g: dict[str, int]) -> Iterator[str]:
        made_g: Counter[str] = Counter()
        for (place, unit_id), count in listed.items():
            if self._is_new_sack(unit_id):
                what, made_at, *_ = unit_id.split("/")
                made_g[f"{what}/{made_at}"] += count * mass_g[unit_id]
                if made_at != place:
                    yield f"night {night.day}: {unit_id} is made at {place}"
        for where, grams in made_g.items():
            if grams != self.to_be_sacked_g[where]:
                yield f"night {night.day}: {where} fills {grams} g of {self.to_be_sacked_g[where]}"
            self.to_be_sacked_g[where] = 0

    def _end(self, day: int) -> Iterator[str]:
        listed, _ = self._listed(day)
        for key in sorted(listed.keys() | self.stands.keys()):
            if listed[key] != self.stands[key]:
                yield f"the end: {listed[key]} {key[1]} at {key[0]}, not {self.stands[key]}"
            if self.stands[key] and key[0] != self.problem.start_place:
                yield f"the end: {key[1]} is left at {key[0]}"
        for where, grams in self.to_be_sacked_g.items():
            if grams:
                yield f"the end: {grams} g of {where} are in no sack"
