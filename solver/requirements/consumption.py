"""What is eaten and burnt each night, and what that leaves behind, by place.

All of it is known once the calendar is: who sleeps where fixes the night sets, and drawing
the containers down night by night fixes which are opened where and when each runs dry.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace

from solver.problem import Container, CookGroup, History, Night, NightSet, Problem, Timeline
from solver.quantities import even_parts, fuel_mass_nearest, share_up, units_up


@dataclass(frozen=True, slots=True)
class NightMeal:
    """What one cook group eats on one night, and the fuel for that, margin included [mL]."""

    day: int
    place_id: str
    cook_group_id: str
    people: int
    night_set: NightSet
    bags: int
    fuel_ml: int


@dataclass(frozen=True, slots=True)
class OpenSpell:
    """An opened container between two nights: made on one, used up or topped by the next.

    `left_ml` is what it holds all that while. `to_day` is None from the group's last night
    on: what is left then goes down to the start place.
    """

    container: Container
    number: int
    from_day: int
    from_place: str
    to_day: int | None
    to_place: str
    left_ml: int
    mass_g: int


@dataclass(frozen=True, slots=True)
class EmptyContainer:
    """A container that ran dry on the night of `day` at a place."""

    container: Container
    number: int
    day: int
    place_id: str


@dataclass(frozen=True, slots=True)
class Opening:
    """Full containers of one kind that a kitchen opens on one night."""

    container: Container
    day: int
    place_id: str
    count: int


@dataclass(frozen=True, slots=True)
class Burn:
    """How a cook group's containers are drawn down; `shortfall_ml` is what they lack."""

    openings: tuple[Opening, ...]
    open_spells: tuple[OpenSpell, ...]
    empties: tuple[EmptyContainer, ...]
    shortfall_ml: int


@dataclass(frozen=True, slots=True)
class Sack:
    """A sack of trash or human waste, made at a place on the last night of a stay.

    `contains` are the allergens of the food whose packaging is in it, where each kitchen packs
    its own.
    """

    unit_id: str
    place_id: str
    day: int
    mass_g: int
    volume_ml: int
    contains: tuple[str, ...] = ()


def night_meals(problem: Problem, timeline: Timeline) -> tuple[NightMeal, ...]:
    """Every cook group's meals, night by night."""
    meals = []
    for night in timeline.nights:
        for group in problem.cook_groups:
            people = problem.eaters(group.cook_group_id, night.day)
            if not people:
                continue
            place_id = night.place_of(people[0].person_id)
            night_set = problem.night_set(group.cook_group_id, group.set_id_on(night.day, place_id))
            meals.append(
                NightMeal(
                    day=night.day,
                    place_id=place_id,
                    cook_group_id=group.cook_group_id,
                    people=len(people),
                    night_set=night_set,
                    bags=units_up(amount=len(people), per_unit=night_set.sets_per_bag),
                    fuel_ml=share_up(
                        amount=len(people) * night_set.fuel_ml,
                        percent=100 + problem.fuel_margin_percent,
                    ),
                )
            )
    return tuple(meals)


def burn_schedule(problem: Problem, group: CookGroup, meals: tuple[NightMeal, ...]) -> Burn:
    """Draw a kitchen's containers down, oldest first, over its meals in order.

    It burns what its guests' meals take, too. A guest has no containers and burns nothing itself.
    """
    openings: list[Opening] = []
    spells: list[OpenSpell] = []
    empties: list[EmptyContainer] = []
    opened: dict[str, int] = {}
    number = shortfall_ml = left_ml = 0
    current: Container | None = None
    ours = _kitchen_meals(problem, group, meals)
    counts = problem.history.chain if problem.history is not None else ()
    for index, meal in enumerate(ours):
        need_ml = meal.fuel_ml
        need_ml += sum(
            history.more_burnt_ml(group.cook_group_id)
            for history in counts
            if index == max(history.nights - 1, 0)
        )
        over = [history for history in counts if meal.day > history.nights]
        tonight: dict[str, int] = {}
        while need_ml > 0:
            if current is None:
                current = _next_kind(group, opened, over)
                if current is None:
                    shortfall_ml += need_ml
                    break
                opened[current.container_id] = opened.get(current.container_id, 0) + 1
                tonight[current.container_id] = tonight.get(current.container_id, 0) + 1
                number += 1
                left_ml = current.content_ml
            drawn_ml = min(left_ml, need_ml)
            left_ml -= drawn_ml
            need_ml -= drawn_ml
            if left_ml == 0:
                empties.append(EmptyContainer(current, number, meal.day, meal.place_id))
                current = None
        openings.extend(
            Opening(container, meal.day, meal.place_id, tonight[container.container_id])
            for container in group.containers
            if container.container_id in tonight
        )
        if current is not None:
            following = ours[index + 1] if index + 1 < len(ours) else None
            spells.append(
                OpenSpell(
                    container=current,
                    number=number,
                    from_day=meal.day,
                    from_place=meal.place_id,
                    to_day=following.day if following else None,
                    to_place=following.place_id if following else problem.start_place,
                    left_ml=left_ml,
                    mass_g=current.tare_g
                    + fuel_mass_nearest(
                        volume_ml=left_ml, density_g_per_l=problem.fuel_density_g_per_l
                    ),
                )
            )
    return Burn(tuple(openings), tuple(spells), tuple(empties), shortfall_ml)


def _kitchen_meals(
    problem: Problem, kitchen: CookGroup, meals: tuple[NightMeal, ...]
) -> tuple[NightMeal, ...]:
    """A kitchen's own meals with the fuel of its guests' added; none for a guest."""
    if kitchen.kitchen_of is not None:
        return ()
    guests = {group.cook_group_id for group in problem.fed_from(kitchen)[1:]}
    theirs_ml = Counter[int]()
    for meal in meals:
        if meal.cook_group_id in guests:
            theirs_ml[meal.day] += meal.fuel_ml
    return tuple(
        replace(meal, fuel_ml=meal.fuel_ml + theirs_ml[meal.day])
        for meal in meals
        if meal.cook_group_id == kitchen.cook_group_id
    )


def _next_kind(group: CookGroup, opened: dict[str, int], over: list[History]) -> Container | None:
    """The first kind of which any is left; what the counts so far found lost is not."""
    for container in group.containers:
        lost = sum(history.lost_then(container.unit_id) for history in over)
        so_many = opened.get(container.container_id, 0) + lost
        if container.count is None or so_many < container.count:
            return container
    return None


def trash_apart(problem: Problem) -> bool:
    """Whether each kitchen packs its own trash: one of several has somebody who reacts."""
    return len(problem.kitchens) > 1 and any(person.reacts_to for person in problem.roster)


def sacks(problem: Problem, timeline: Timeline, meals: tuple[NightMeal, ...]) -> tuple[Sack, ...]:
    """All sacks of trash and human waste, stay by stay."""
    waste, made = problem.waste, list[Sack]()
    since = problem.history.waste_since if problem.history is not None else 1
    for place in problem.route.places:
        place_id = place.place_id
        for number, stay in enumerate(_stays(timeline, place_id), start=1):
            days = {night.day for night in stay if night.day >= since}
            eaten = [m for m in meals if m.place_id == place_id and m.day in days]
            for owner, theirs in _packed_by(problem, eaten):
                trash_g = sum(meal.people * meal.night_set.packaging_g for meal in theirs)
                contains = dict.fromkeys(a for meal in theirs for a in meal.night_set.contains)
                made += [
                    Sack(
                        f"trash/{place_id}/{owner}{number}-{index}",
                        place_id,
                        stay[-1].day,
                        mass_g,
                        mass_g * waste.trash_ml_per_g,
                        tuple(contains) if owner else (),
                    )
                    for index, mass_g in _parts(trash_g, waste.trash_sack_g)
                ]
            nights = sum(len(n.sleepers_at(place_id)) for n in stay if n.day >= since)
            made += [
                Sack(
                    f"human-waste/{place_id}/{number}-{index}",
                    place_id,
                    stay[-1].day,
                    mass_g,
                    mass_g * waste.human_waste_ml_per_g,
                )
                for index, mass_g in _parts(
                    nights * waste.waste_g_per_person_night, waste.human_waste_sack_g
                )
            ]
    return tuple(made)


def _packed_by(problem: Problem, eaten: list[NightMeal]) -> list[tuple[str, list[NightMeal]]]:
    """Meals whose trash is packed together, each lot with what its sacks' names begin with."""
    if not trash_apart(problem):
        return [("", eaten)]
    lots: dict[str, list[NightMeal]] = {}
    for meal in eaten:
        lots.setdefault(problem.kitchen_id(meal.cook_group_id), []).append(meal)
    return [(f"{kitchen}/", theirs) for kitchen, theirs in lots.items()]


def _parts(total_g: int, largest_g: int) -> list[tuple[int, int]]:
    """The sacks that a mass fills, numbered from 1 [g]."""
    return list(enumerate(even_parts(total=total_g, largest=largest_g), start=1))


def _stays(timeline: Timeline, place_id: str) -> list[list[Night]]:
    """The runs of consecutive nights on which somebody sleeps at a place."""
    stays: list[list[Night]] = []
    for night in timeline.nights:
        if not night.sleepers_at(place_id):
            continue
        if stays and stays[-1][-1].day == night.day - 1:
            stays[-1].append(night)
        else:
            stays.append([night])
    return stays
