"""How many bags and containers the trip takes along."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass

from solver.problem import Container, NightSet, Problem, ReserveKind, Timeline
from solver.quantities import units_up
from solver.requirements.consumption import (
    Burn,
    NightMeal,
    Sack,
    burn_schedule,
    night_meals,
    sacks,
)
from solver.requirements.reserves import ReserveNight, reserve_nights

_Held = tuple[str, ReserveKind, int]
"""Where reserves are held, why, and for how many nights."""


@dataclass(frozen=True, slots=True)
class Supplies:
    """Everything that follows from the calendar alone.

    `bags` and `containers` say how many of each are taken, in the problem's order; `burns`
    stand in the order of the problem's cook groups.
    """

    meals: tuple[NightMeal, ...]
    burns: tuple[Burn, ...]
    sacks: tuple[Sack, ...]
    reserves: tuple[ReserveNight, ...]
    bags: tuple[tuple[NightSet, int], ...]
    containers: tuple[tuple[Container, int], ...]


def supplies(problem: Problem, timeline: Timeline) -> Supplies:
    """Work out what the calendar eats, burns, reserves and leaves, and what must be taken.

    A count that the problem gives is kept. Otherwise bags are those used plus those of every
    reserve, each reserve its own; and of containers without a count the first kind takes
    what is opened plus whole containers for every reserve, each its own.
    """
    meals = night_meals(problem, timeline)
    burns = tuple(burn_schedule(problem, group, meals) for group in problem.cook_groups)
    held = reserve_nights(problem, timeline)
    bags = tuple(
        (night_set, _bags_needed(night_set, meals, held)) for night_set in problem.night_sets
    )
    containers: list[tuple[Container, int]] = []
    for group, burn in zip(problem.cook_groups, burns, strict=True):
        theirs = {each.cook_group_id for each in problem.fed_from(group)}
        ours = tuple(night for night in held if night.reserve.cook_group_id in theirs)
        containers.extend(_containers(group.containers, burn, ours))
    return Supplies(
        meals=meals,
        burns=burns,
        sacks=sacks(problem, timeline, meals),
        reserves=held,
        bags=bags,
        containers=tuple(containers),
    )


def _bags_needed(
    night_set: NightSet, meals: tuple[NightMeal, ...], held: tuple[ReserveNight, ...]
) -> int:
    if night_set.bag_count is not None:
        return night_set.bag_count
    used = sum(m.bags for m in meals if m.night_set == night_set)
    ours = tuple(
        night
        for night in held
        if night.reserve.cook_group_id == night_set.cook_group_id
        and night.reserve.set_id == night_set.set_id
    )
    return used + sum(max(bags) for bags in _by_reserve(ours, lambda night: night.bags))


def _containers(
    kinds: tuple[Container, ...], burn: Burn, held: tuple[ReserveNight, ...]
) -> list[tuple[Container, int]]:
    opened = {
        kind.container_id: sum(o.count for o in burn.openings if o.container == kind)
        for kind in kinds
    }
    counts = []
    to_hold = tuple(max(ml) for ml in _by_reserve(held, lambda night: night.fuel_ml))
    for kind in kinds:
        if kind.count is not None:
            counts.append((kind, kind.count))
            continue
        whole = sum(units_up(amount=ml, per_unit=kind.content_ml) for ml in to_hold)
        counts.append((kind, opened[kind.container_id] + whole))
        to_hold = ()
    return counts


def _by_reserve(
    held: tuple[ReserveNight, ...], amount: Callable[[ReserveNight], int]
) -> list[list[int]]:
    """What each reserve holds night by night; two that say the same are still two.

    A reserve of a kitchen's guests is one with that of the kitchen for the same nights.
    """
    found: dict[tuple[_Held, int], Counter[int]] = {}
    on_night: Counter[tuple[str, _Held, int]] = Counter()
    for night in held:
        reserve = night.reserve
        what = reserve.place_id, reserve.kind, reserve.nights
        rank = on_night[reserve.cook_group_id, what, night.day]
        on_night[reserve.cook_group_id, what, night.day] += 1
        found.setdefault((what, rank), Counter())[night.day] += amount(night)
    return [list(by_day.values()) for by_day in found.values()]
