"""Faults of food, fuel, reserves and waste that can be seen without the calendar."""

from __future__ import annotations

from collections.abc import Iterator

from solver.errors import ProblemFault
from solver.problem.fault_checks.roster import RESERVED_IDS, reserved_id
from solver.problem.fault_checks.wording import Path, below, duplicate_ids, unknown_id
from solver.problem.problem import Problem
from solver.problem.supplies import CookGroup, NightSet, ReserveKind


def cook_group_faults(problem: Problem) -> Iterator[ProblemFault]:
    """Cook groups with no people, with sets or containers that stand twice or nowhere."""
    ids = [group.cook_group_id for group in problem.cook_groups]
    yield from duplicate_ids(("cook_groups",), "cook_group_id", ids, "cook group")
    places = [place.place_id for place in problem.route.places]
    for index, group in enumerate(problem.cook_groups):
        where: Path = ("cook_groups", index)
        if group.cook_group_id in RESERVED_IDS:
            yield reserved_id((*where, "cook_group_id"))
        if not any(p.cook_group_id == group.cook_group_id for p in problem.everybody):
            yield ProblemFault(
                where, "empty", f"Nobody is in cook group {group.cook_group_id}. Leave it out."
            )
        sets = _set_ids(problem, group.cook_group_id)
        for number, (place, set_id) in enumerate(group.set_at):
            if place not in places:
                yield unknown_id((*where, "set_at", number), place, "place", places)
            if set_id not in sets:
                yield unknown_id((*where, "set_at", number), set_id, "night set", sets)
        named = [place for place, _ in group.set_at]
        yield from duplicate_ids((*where, "set_at"), "place", named, "night set for place")
        yield from _kitchen_faults(problem, group, where)
        yield from _container_faults(group, where, sets)


def _kitchen_faults(problem: Problem, group: CookGroup, where: Path) -> Iterator[ProblemFault]:
    """A kitchen that is none, or is itself a guest's, and containers of a group without one."""
    if group.kitchen_of is None:
        return
    kitchens = [kitchen.cook_group_id for kitchen in problem.kitchens]
    if group.kitchen_of not in kitchens:
        yield ProblemFault(
            (*where, "kitchen_of"),
            "nobody_cooks",
            f"Everybody who eats from the kitchen of cook group {group.kitchen_of} has a menu of "
            "their own. Leave the menu out for some, and for their night sets.",
        )
    if group.containers:
        yield ProblemFault(
            (*where, "containers"),
            "containers_of_guest",
            f"Cook group {group.cook_group_id} eats from the kitchen of {group.kitchen_of}, so "
            "the fuel containers are that group's.",
        )


def _set_ids(problem: Problem, cook_group_id: str) -> list[str]:
    return [s.set_id for s in problem.night_sets if s.cook_group_id == cook_group_id]


def _container_faults(group: CookGroup, where: Path, sets: list[str]) -> Iterator[ProblemFault]:
    ids = [container.container_id for container in group.containers]
    yield from duplicate_ids((*where, "containers"), "container_id", ids, "container")
    for number, container in enumerate(group.containers):
        here: Path = (*where, "containers", number)
        if container.container_id in sets:
            yield ProblemFault(
                (*here, "container_id"),
                "duplicate_id",
                f"A night set is called {container.container_id} too. Give each its own id.",
            )
        if container.cook_group_id != group.cook_group_id:
            yield unknown_id(
                (*here, "cook_group_id"),
                container.cook_group_id,
                "cook group here",
                [group.cook_group_id],
            )
        yield from below((*here, "content_ml"), container.content_ml, 1, "The content", "mL")
        yield from below((*here, "tare_g"), container.tare_g, 1, "A container's tare", "g")
        yield from below((*here, "volume_ml"), container.volume_ml, 0, "The volume", "mL")
        if container.capacity_ml is not None and container.capacity_ml < container.content_ml:
            yield ProblemFault(
                (*here, "capacity_ml"),
                "less_than_content",
                "A container cannot hold less to the brim than what can be used of it.",
            )
        if container.count is not None:
            yield from below((*here, "count"), container.count, 0, "The count", "")


def night_set_faults(problem: Problem) -> Iterator[ProblemFault]:
    """Night sets that stand twice, belong to nobody, or are less than their parts."""
    groups = [group.cook_group_id for group in problem.cook_groups]
    seen: set[str] = set()
    for index, night_set in enumerate(problem.night_sets):
        where: Path = ("night_sets", index)
        if night_set.unit_id in seen:
            yield ProblemFault(
                (*where, "set_id"),
                "duplicate_id",
                f"There is another night set {night_set.set_id} for the same cook group.",
            )
        seen.add(night_set.unit_id)
        if night_set.cook_group_id not in groups:
            yield unknown_id(
                (*where, "cook_group_id"), night_set.cook_group_id, "cook group", groups
            )
        yield from _set_number_faults(night_set, where)


def _set_number_faults(night_set: NightSet, where: Path) -> Iterator[ProblemFault]:
    yield from below((*where, "gross_g"), night_set.gross_g, 1, "The mass of a night set", "g")
    yield from below((*where, "packaging_g"), night_set.packaging_g, 0, "The packaging", "g")
    yield from below((*where, "lunch_g"), night_set.lunch_g, 0, "The lunch", "g")
    yield from below((*where, "volume_ml"), night_set.volume_ml, 0, "The volume", "mL")
    yield from below((*where, "fuel_ml"), night_set.fuel_ml, 0, "The fuel", "mL")
    yield from below((*where, "sets_per_bag"), night_set.sets_per_bag, 1, "Sets in a bag", "")
    if night_set.bag_count is not None:
        yield from below((*where, "bag_count"), night_set.bag_count, 0, "The bags", "")
    if night_set.dinner_kinds is not None:
        yield from below((*where, "dinner_kinds"), night_set.dinner_kinds, 1, "Dinners", "")
    lowest_m, highest_m = night_set.lowest_m, night_set.highest_m
    if lowest_m is not None and highest_m is not None and highest_m < lowest_m:
        yield ProblemFault(
            (*where, "highest_m"),
            "band_upside_down",
            "The highest camp of a night set is no lower than the lowest.",
        )
    if (night_set.lunch_kcal or 0) > (night_set.energy_kcal or night_set.lunch_kcal or 0):
        yield ProblemFault(
            (*where, "lunch_kcal"),
            "parts_exceed_whole",
            "The lunch has more energy than the set that it is a part of.",
        )
    if night_set.packaging_g + night_set.lunch_g > night_set.gross_g:
        yield ProblemFault(
            (*where, "gross_g"),
            "parts_exceed_whole",
            "Packaging and lunch together are more than the set. Its mass is gross, both included.",
        )


def reserve_faults(problem: Problem) -> Iterator[ProblemFault]:
    """Reserves of nights, places, cook groups or sets that are not there."""
    places = [place.place_id for place in problem.route.places]
    groups = [group.cook_group_id for group in problem.cook_groups]
    for index, reserve in enumerate(problem.reserves):
        where: Path = ("reserves", index)
        yield from below((*where, "nights"), reserve.nights, 1, "The nights of a reserve", "")
        if (reserve.kind is ReserveKind.EVACUATION) != (reserve.people is not None):
            yield ProblemFault(
                (*where, "people"),
                "people_of_reserve",
                "Say for how many people an evacuation reserve is held, and of no other kind.",
            )
        elif reserve.people is not None:
            yield from below((*where, "people"), reserve.people, 1, "The people", "")
        if reserve.place_id not in places:
            yield unknown_id((*where, "place_id"), reserve.place_id, "place", places)
        if reserve.cook_group_id not in groups:
            yield unknown_id((*where, "cook_group_id"), reserve.cook_group_id, "cook group", groups)
            continue
        sets = _set_ids(problem, reserve.cook_group_id)
        if reserve.set_id not in sets:
            yield unknown_id((*where, "set_id"), reserve.set_id, "night set", sets)


def setting_faults(problem: Problem) -> Iterator[ProblemFault]:
    """Waste, fuel and rule settings out of range."""
    waste = problem.waste
    where: Path = ("waste",)
    yield from below(
        (*where, "waste_g_per_person_night"), waste.waste_g_per_person_night, 0, "Waste", "g"
    )
    yield from below((*where, "trash_sack_g"), waste.trash_sack_g, 1, "A trash sack", "g")
    yield from below(
        (*where, "human_waste_sack_g"), waste.human_waste_sack_g, 1, "A waste sack", "g"
    )
    yield from below((*where, "trash_ml_per_g"), waste.trash_ml_per_g, 0, "Volume", "mL")
    yield from below(
        (*where, "human_waste_ml_per_g"), waste.human_waste_ml_per_g, 0, "Volume", "mL"
    )
    density = problem.fuel_density_g_per_l
    yield from below(("fuel_density_g_per_l",), density, 1, "The density of fuel", "g/L")
    margin = problem.fuel_margin_percent
    yield from below(("fuel_margin_percent",), margin, 0, "The margin on fuel", "%")
    yield from below(
        ("rules", "pack_volume_allowance_percent"),
        problem.rules.pack_volume_allowance_percent,
        0,
        "The allowance",
        "%",
    )
