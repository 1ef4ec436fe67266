"""Tonight's kitchen: who has stove, pot and shelter, which sets are eaten, which fuel is burnt."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from service.reports.paper.origins import Lots, Origins
from service.reports.paper.things import POT, SHELTER, STOVE, Things, by_unit, counts_of

Document = dict[str, Any]


@dataclass(frozen=True, slots=True)
class KitchenThing:
    """Things of a kitchen, and who brought which of them when; nobody for what was there before.

    `brought_by` and `brought_day` are those of the last trip that brought any; `lots` are all of
    the things as far as somebody brought them.
    """

    unit_id: str
    count: int
    brought_by: tuple[tuple[str, int], ...]
    brought_day: int
    lots: Lots


Rows = tuple[tuple[str, tuple[KitchenThing, ...]], ...]
"""Kinds of things of a kitchen in order, each with its word."""


@dataclass(frozen=True, slots=True)
class Kitchen:
    """The kitchen of one cook group on one night; fuel burnt [mL], with the margin."""

    day: int
    place: str
    cook_group: str
    set_label: str
    night_sets: int
    bags: int
    fuel_ml: int
    stoves: tuple[KitchenThing, ...]
    pots: tuple[KitchenThing, ...]
    shelters: tuple[KitchenThing, ...]
    food: tuple[KitchenThing, ...]
    fuel: tuple[KitchenThing, ...]

    @property
    def of_all(self) -> Rows:
        """What all who sleep there share, each kind with its word, as the sheets have them."""
        return (("stove", self.stoves), ("pot", self.pots), ("shelter", self.shelters))

    @property
    def own(self) -> Rows:
        """What this cook group eats and burns."""
        return (("food", self.food), ("fuel", self.fuel))


def kitchens(plan: Document) -> tuple[Kitchen, ...]:
    """Every kitchen of a plan, night by night.

    `food` and `fuel` are what is left after the night, and the bags and containers that were used.
    """
    things = Things(plan)
    stock = {(n["day"], n["place"]): counts_of(n["units"]) for n in plan["stock"]}
    brought, origins = _brought(plan), Origins(plan)
    return tuple(_kitchen(things, stock, brought, origins, used) for used in plan["used"])


Brought = dict[tuple[str, str], list[tuple[int, dict[str, int]]]]


def _brought(plan: Document) -> Brought:
    """By unit id and place, the days on which it was brought there, and by whom."""
    brought: Brought = {}
    for trip in plan["trips"]:
        for unit_id, has in by_unit(trip).items():
            brought.setdefault((unit_id, trip["to"]), []).append((trip["day"], has))
    return brought


def _kitchen(
    things: Things,
    stock: dict[tuple[int, str], dict[str, int]],
    brought: Brought,
    origins: Origins,
    used: Document,
) -> Kitchen:
    day, place, group = used["day"], used["place"], used["cook_group"]
    there = stock.get((day, place), {})
    eaten = f"{group}/{used['set_id']}"

    def thing(unit_id: str, count: int, lots: Lots) -> KitchenThing:
        last = [entry for entry in brought.get((unit_id, place), ()) if entry[0] <= day]
        when, who = last[-1] if last else (0, {})
        return KitchenThing(unit_id, count, tuple(who.items()), when, lots)

    def standing(counts: dict[str, int]) -> tuple[KitchenThing, ...]:
        return tuple(thing(u, n, origins.there(day, place, u)) for u, n in counts.items())

    def of(purpose: str) -> tuple[KitchenThing, ...]:
        return standing({u: n for u, n in there.items() if things.purpose(u) == purpose})

    return Kitchen(
        day=day,
        place=place,
        cook_group=group,
        set_label=things.label(eaten),
        night_sets=used["night_sets"],
        bags=used["bags"],
        fuel_ml=used["fuel_ml"],
        stoves=of(STOVE),
        pots=of(POT),
        shelters=of(SHELTER),
        food=(thing(eaten, used["bags"], origins.used(day, place, eaten, used["bags"])),),
        fuel=standing(dict(_burning(things, there, group))),
    )


def _burning(things: Things, there: dict[str, int], group: str) -> Iterator[tuple[str, int]]:
    """Containers of a group that stand there once the night is over, those in use first."""
    # Who has a menu of their own, as in `all+vegetarian`, burns the fuel of the kitchen.
    kitchen = group.partition("+")[0]
    for unit_id in sorted(there, key=lambda unit_id: "/open-" not in unit_id):
        is_group = things.cook_group(unit_id) in (kitchen, None)
        if things.kind(unit_id) == "fuel" and is_group and "/empty-" not in unit_id:
            yield unit_id, there[unit_id]
