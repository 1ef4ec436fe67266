"""Containers for the fuel that the chain comes to, of the kinds that the problem has."""

from __future__ import annotations

import math
from dataclasses import dataclass

from solver.problem import Container, CookGroup
from solver.requirements.figures import Figure, Notice, Part
from solver.requirements.surroundings import as_given, assumed

LEAST_USABLE = 0.05


@dataclass(frozen=True, slots=True)
class FuelNight:
    """What a cook group has burnt up to a night, margin included, and each reserve then [mL]."""

    burnt_ml: float
    reserves_ml: tuple[float, ...]


def container_part(
    group: CookGroup, nights: tuple[FuelNight, ...], taken: dict[str, int], left_inside: float
) -> Part:
    """Containers of each kind for a cook group's nights and reserves [count], by the chain.

    Nights draw on the kinds in their order. Each reserve that a night holds is whole containers
    of its own, of the last kinds first, since those are opened last. A container may be reserve
    on one night and burnt on a later one, so what counts is the night that asks for most.
    `taken` is what the plan takes by kind, `left_inside` the share of its gas that no canister
    gives in the cold.
    """
    about = (("cook_group_id", group.cook_group_id),)
    usable = 1.0 - left_inside
    if not group.containers or not nights:
        return Part()
    if usable < LEAST_USABLE:
        message = (
            f"At the coldest camp canisters keep {100 * left_inside:.0f} % of their gas, so no "
            "number of them is enough. Warm them, or take liquid fuel."
        )
        return Part(notices=(Notice("fuel_containers_not_given", about, message),))
    asked = [_asked_on(night, group.containers, usable) for night in nights]
    figures = []
    for kind in group.containers:
        its_about = (*about, ("container_id", kind.container_id))
        most = max(counts.get(kind.container_id, 0) for counts in asked)
        figures.append(
            Figure(
                "fuel_containers",
                its_about,
                most,
                "containers",
                "nights with margin in the kinds' order, then whole ones for each reserve that "
                "is held; the most of any night",
                "containers of the request",
                "computed",
                (
                    as_given("fuel_for_nights", nights[-1].burnt_ml, "mL"),
                    as_given("content", kind.content_ml, "mL"),
                    assumed("usable_share", usable, "-", "all of a liquid; of gas, in the cold"),
                ),
            )
        )
        figures.append(
            Figure(
                "fuel_containers_taken",
                its_about,
                taken[kind.container_id],
                "containers",
                "the request's count, else as many as the night sets need",
                "the plan's own",
                "computed",
            )
        )
    return Part(tuple(figures), tuple(_shortage(group, nights, taken, usable)))


def _shortage(
    group: CookGroup, nights: tuple[FuelNight, ...], taken: dict[str, int], usable: float
) -> list[Notice]:
    """Where even the litres of all containers together do not reach, whatever their sizes."""
    held_ml = sum(kind.content_ml * taken[kind.container_id] for kind in group.containers)
    missing_ml = max(n.burnt_ml + sum(n.reserves_ml) for n in nights) - held_ml * usable
    if missing_ml <= 0:
        return []
    return [
        Notice(
            "fuel_containers_short",
            (("cook_group_id", group.cook_group_id),),
            f"By the chain from snow to fuel the containers of {group.cook_group_id} lack "
            f"{missing_ml:.0f} mL for its nights, margin and reserves. The plan keeps to the "
            "fuel of the night sets.",
        )
    ]


def _asked_on(night: FuelNight, kinds: tuple[Container, ...], usable: float) -> dict[str, int]:
    counts: dict[str, int] = {}
    _take(kinds, night.burnt_ml, usable, counts)
    for reserve_ml in night.reserves_ml:
        _take(kinds[::-1], reserve_ml, usable, counts)
    return counts


def _take(
    kinds: tuple[Container, ...], amount_ml: float, usable: float, counts: dict[str, int]
) -> None:
    """Take containers for an amount, kind by kind, as far as there are any."""
    left_ml = amount_ml
    for kind in kinds:
        if left_ml <= 0:
            return
        had = counts.get(kind.container_id, 0)
        wanted = math.ceil(round(left_ml / (kind.content_ml * usable), 9))
        new = wanted if kind.count is None else min(wanted, kind.count - had)
        counts[kind.container_id] = had + new
        left_ml -= new * kind.content_ml * usable
