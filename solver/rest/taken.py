"""What a party takes down with a hurt person: kit, food and fuel from what stands there.

It takes the lightest of each kind and no more than it needs. Those who stay keep the rest.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from solver.problem import Container, CookGroup, Day, Item, NeedKind, Person, Problem, Purpose
from solver.quantities import share_up, units_up

KIT = (
    Purpose.ROPE,
    Purpose.RESCUE_KIT,
    Purpose.SHOVEL,
    Purpose.STOVE,
    Purpose.POT,
    Purpose.MEDICAL_KIT,
    Purpose.COMMUNICATOR,
    Purpose.NAVIGATION,
)
"""Each of two parties has one of these; common practice, no source."""


@dataclass(slots=True)
class Taken:
    """What is taken, by (place, unit id), and what there is too little of, in words."""

    place_id: str
    standing: Counter[tuple[str, str]]
    counts: Counter[tuple[str, str]] = field(default_factory=Counter)
    missing: list[str] = field(default_factory=list)

    def left_of(self, unit_id: str, place_id: str | None = None) -> int:
        """How many of a unit are still at a place, by default the one where they part [1]."""
        key = (place_id or self.place_id, unit_id)
        return self.standing[key] - self.counts[key]

    def take(self, unit_id: str, count: int = 1, place_id: str | None = None) -> None:
        """Take so many of a unit from a place."""
        self.counts[place_id or self.place_id, unit_id] += count


def take_down(
    problem: Problem, leaving: Sequence[Person], staying: int, place_id: str, days: Sequence[Day]
) -> Taken:
    """What those who leave take; the history has its standing filled in."""
    history = problem.history
    standing = Counter[tuple[str, str]]()
    for one in history.standing if history is not None else ():
        standing[one.place_id, one.unit_id] += one.count
    taken = Taken(place_id, standing)
    _take_kit(problem, taken, leaving, staying)
    for group in problem.cook_groups:
        people = sum(person.cook_group_id == group.cook_group_id for person in leaving)
        if people:
            _take_food(problem, taken, group, people, days)
    for kitchen in problem.kitchens:
        _take_fuel(problem, taken, kitchen, leaving, days)
    return taken


def _take_kit(problem: Problem, taken: Taken, leaving: Sequence[Person], staying: int) -> None:
    kits = problem.rules.whole("least_rescue_kits")
    wears = {person.person_id for person in leaving}
    for purpose in KIT:
        needed = kits if purpose is Purpose.RESCUE_KIT else 1
        keep = needed if staying else 0
        needed -= sum(
            item.count
            for item in problem.gear
            if item.purpose is purpose and item.owner_id in wears
        )
        listed = any(item.purpose is purpose for item in problem.gear)
        if not listed or needed <= 0:
            continue
        there = list(_units(problem, taken, purpose))
        if len(there) < needed + keep:
            taken.missing.append(f"{needed + keep - len(there)} more {purpose.value}")
        for item in there[: min(needed, len(there))]:
            taken.take(item.unit_id)
    _take_shelter(problem, taken, len(leaving), staying)


def _units(problem: Problem, taken: Taken, purpose: Purpose) -> Iterator[Item]:
    """Each single shared unit of a purpose that stands where they part, the lightest first."""
    items = [
        item
        for item in problem.gear
        if item.purpose is purpose and item.owner_id is None and item.need.kind is not NeedKind.WORN
    ]
    for item in sorted(items, key=lambda one: (one.mass_g, one.item_id)):
        for _ in range(taken.left_of(item.unit_id)):
            yield item


def _take_shelter(problem: Problem, taken: Taken, leaving: int, staying: int) -> None:
    """The lightest shelters for those who leave that leave enough for the others."""
    units = list(_units(problem, taken, Purpose.SHELTER))
    total = sum(item.shelter_places for item in units)
    lightest: dict[int, tuple[int, tuple[Item, ...]]] = {0: (0, ())}
    for item in units:
        for places, (mass_g, chosen) in list(lightest.items()):
            more = places + item.shelter_places
            known = lightest.get(more)
            if known is None or mass_g + item.mass_g < known[0]:
                lightest[more] = (mass_g + item.mass_g, (*chosen, item))
    fits = [
        lightest[places]
        for places in sorted(lightest)
        if places >= leaving and total - places >= staying
    ]
    if not fits:
        stay = f" and for a party of {staying}" if staying else ""
        taken.missing.append(f"shelters for a party of {leaving}{stay}")
        fits = [(0, tuple(units))] if not staying else []
    for item in min(fits, default=(0, ()), key=lambda fit: fit[0])[1]:
        taken.take(item.unit_id)


def nights_of_food(problem: Problem, days: Sequence[Day]) -> int:
    """Nights for which a party gets food and fuel.

    Tonight, if it is still to come, and the nights on the way, at least as many as the rule says.
    """
    tonight = problem.history is not None and not problem.history.after_night
    return tonight + max(len(days) - 1, problem.rules.whole("evacuation_nights"))


def _take_food(
    problem: Problem, taken: Taken, group: CookGroup, people: int, days: Sequence[Day]
) -> None:
    """Night sets from where they part, then from below: the place's own, storm sets, others."""
    sets_short = people * nights_of_food(problem, days)
    own = dict(group.set_at).get(taken.place_id)
    kinds = sorted(
        (one for one in problem.night_sets if one.cook_group_id == group.cook_group_id),
        key=lambda one: (one.set_id != own, not one.storm, one.gross_g, one.set_id),
    )
    for place_id in problem.route.way_home(taken.place_id):
        for one in kinds:
            bags = units_up(amount=sets_short, per_unit=one.sets_per_bag)
            bags = min(bags, taken.left_of(one.unit_id, place_id))
            if bags > 0:
                taken.take(one.unit_id, bags, place_id)
                sets_short -= bags * one.sets_per_bag
            if sets_short <= 0:
                return
    taken.missing.append(f"{sets_short} night sets of cook group {group.cook_group_id}")


def _take_fuel(
    problem: Problem,
    taken: Taken,
    kitchen: CookGroup,
    leaving: Sequence[Person],
    days: Sequence[Day],
) -> None:
    """Full containers, the fewest that hold enough, from where they part and then from below."""
    fed = {group.cook_group_id for group in problem.fed_from(kitchen)}
    people = sum(person.cook_group_id in fed for person in leaving)
    sets = [one.fuel_ml for one in problem.night_sets if one.cook_group_id in fed]
    if not people or not kitchen.containers or not sets:
        return
    short_ml = share_up(
        amount=people * nights_of_food(problem, days) * max(sets),
        percent=100 + problem.fuel_margin_percent,
    )
    for place_id in problem.route.way_home(taken.place_id):
        while short_ml > 0 and (one := _container(taken, kitchen, place_id, short_ml)):
            taken.take(one.unit_id, 1, place_id)
            short_ml -= one.content_ml
    if short_ml > 0:
        taken.missing.append(f"{short_ml / 1000:.2f} L of fuel in unopened containers")


def _container(taken: Taken, kitchen: CookGroup, place_id: str, short_ml: int) -> Container | None:
    """The smallest kind there that holds enough, else the largest there; None for none."""
    there = [c for c in kitchen.containers if taken.left_of(c.unit_id, place_id) > 0]
    enough = [c for c in there if c.content_ml >= short_ml]
    if enough:
        return min(enough, key=lambda c: c.content_ml)
    return max(there, key=lambda c: c.content_ml, default=None)
