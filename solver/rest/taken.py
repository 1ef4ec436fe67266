"""What a party takes down with a hurt person: kit, food and fuel from what stands there.

It takes the lightest of each kind and no more than it needs. Those who stay keep the rest.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

from solver.checker.queries.words import WORDS
from solver.problem import (
    Container,
    CookGroup,
    Day,
    Item,
    NeedKind,
    NightSet,
    Person,
    Problem,
    Purpose,
)
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

KIT_OF_A_WAIT = (
    Purpose.SHOVEL,
    Purpose.STOVE,
    Purpose.POT,
    Purpose.MEDICAL_KIT,
    Purpose.COMMUNICATOR,
)
"""What those have, besides shelter, who wait with a hurt person; common practice, no source."""


@dataclass(slots=True)
class Taken:
    """What is taken, by (place, unit id), and what there is too little of, in words.

    Food and fuel come from the places of `way`, in its order.
    """

    place_id: str
    way: Sequence[str]
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
    taken = Taken(place_id, problem.route.way_home(place_id), _standing(problem))
    _take_kit(problem, taken, KIT, leaving, staying)
    _take_shelter(problem, taken, len(leaving), staying, by=_mass_g)
    _take_stock(problem, taken, leaving, nights_of_food(problem, days))
    return taken


def take_for_a_wait(
    problem: Problem, waiting: Sequence[Person], others: int, place_id: str
) -> Taken:
    """What has to be at a place where people wait to be fetched; `others` there go on without it.

    The history has its standing filled in. Only what stands at the place counts.
    """
    taken = Taken(place_id, (place_id,), _standing(problem))
    _take_kit(problem, taken, KIT_OF_A_WAIT, waiting, others)
    _take_shelter(problem, taken, len(waiting), others, by=_discomfort)
    _take_stock(problem, taken, waiting, nights_of_food(problem, ()))
    return taken


def _standing(problem: Problem) -> Counter[tuple[str, str]]:
    standing = Counter[tuple[str, str]]()
    for one in problem.history.standing if problem.history is not None else ():
        standing[one.place_id, one.unit_id] += one.count
    return standing


def _take_stock(problem: Problem, taken: Taken, people: Sequence[Person], nights: int) -> None:
    """Food and fuel for so many nights."""
    for group in problem.cook_groups:
        fed = sum(person.cook_group_id == group.cook_group_id for person in people)
        if fed:
            _take_food(taken, _kinds_of_food(problem, group, taken.place_id), group, fed * nights)
    for kitchen in problem.kitchens:
        _take_fuel(problem, taken, kitchen, people, nights)


def _take_kit(
    problem: Problem,
    taken: Taken,
    purposes: Sequence[Purpose],
    leaving: Sequence[Person],
    staying: int,
) -> None:
    kits = problem.rules.whole("least_rescue_kits")
    wears = {person.person_id for person in leaving}
    of_team = Counter(person.rope_team_id for person in leaving)
    for purpose in purposes:
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
        there = list(_units(problem, taken, purpose, of_team))
        if len(there) < needed + keep:
            taken.missing.append(f"{needed + keep - len(there)} more {WORDS[purpose]}")
        for item in there[: min(needed, len(there))]:
            taken.take(item.unit_id)


def _units(
    problem: Problem, taken: Taken, purpose: Purpose, of_team: Counter[str]
) -> Iterator[Item]:
    """Each single shared unit of a purpose that stands where they part, the best to take first.

    That is what belongs to the rope team of most of those who leave (`of_team` counts them), then
    what belongs to no team, then what is another team's; of those the lightest.
    """
    items = [
        item
        for item in problem.gear
        if item.purpose is purpose and item.owner_id is None and item.need.kind is not NeedKind.WORN
    ]

    def order(item: Item) -> tuple[bool, int, int, str]:
        team = item.rope_team_id
        members = of_team[team] if team is not None else 0
        return team is not None and not members, -members, item.mass_g, item.item_id

    for item in sorted(items, key=order):
        for _ in range(taken.left_of(item.unit_id)):
            yield item


def _mass_g(item: Item) -> int:
    return item.mass_g


def _discomfort(item: Item) -> int:
    """Those who wait sit in a tent of the camp before they sit in what is carried on every trip."""
    return item.mass_g + (_WORSE_G if item.need.kind is NeedKind.EVERY_TRIP else 0)


_WORSE_G = 1_000_000
"""More than any shelter weighs [g]."""


def _take_shelter(
    problem: Problem, taken: Taken, leaving: int, staying: int, *, by: Callable[[Item], int]
) -> None:
    """The shelters for those who leave with the least sum that leave enough for the others."""
    units = list(_units(problem, taken, Purpose.SHELTER, Counter()))
    total = sum(item.shelter_places for item in units)
    least: dict[int, tuple[int, tuple[Item, ...]]] = {0: (0, ())}
    for item in units:
        for places, (amount, chosen) in list(least.items()):
            more = places + item.shelter_places
            known = least.get(more)
            if known is None or amount + by(item) < known[0]:
                least[more] = (amount + by(item), (*chosen, item))
    fits = [
        least[places] for places in sorted(least) if places >= leaving and total - places >= staying
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


def _kinds_of_food(problem: Problem, group: CookGroup, place_id: str) -> list[NightSet]:
    """A group's kinds of night sets, the best to take first: a place's own, then for storms."""
    own = dict(group.set_at).get(place_id)
    return sorted(
        (one for one in problem.night_sets if one.cook_group_id == group.cook_group_id),
        key=lambda one: (one.set_id != own, not one.storm, one.gross_g, one.set_id),
    )


def _take_food(taken: Taken, kinds: Sequence[NightSet], group: CookGroup, sets_short: int) -> None:
    """Night sets from the first place of the way, then from the next ones."""
    for place_id in taken.way:
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
    problem: Problem, taken: Taken, kitchen: CookGroup, leaving: Sequence[Person], nights: int
) -> None:
    """Full containers, the fewest that hold enough, from the first place of the way on."""
    fed = {group.cook_group_id for group in problem.fed_from(kitchen)}
    people = sum(person.cook_group_id in fed for person in leaving)
    sets = [one.fuel_ml for one in problem.night_sets if one.cook_group_id in fed]
    if not people or not kitchen.containers or not sets:
        return
    short_ml = share_up(
        amount=people * nights * max(sets), percent=100 + problem.fuel_margin_percent
    )
    for place_id in taken.way:
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
