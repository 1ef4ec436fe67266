"""The load sheet as a table by name: each thing of each person on each trip, and from whom."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from service.reports.paper.hand_overs import hand_overs
from service.reports.paper.keepers import keepers_of
from service.reports.paper.kitchens import Kitchen, KitchenThing, kitchens
from service.reports.paper.things import Things, in_use, is_in_use
from service.reports.sleds import empty_sled_kg
from service.reports.tables import Cell, Table, table_of

Document = dict[str, Any]

IN_USE = "in_use"
"""Where something is that is worn or in use on a trip, in no pack and on no sled."""

COLUMNS = (
    "day",
    "date",
    "step",
    "from",
    "to",
    "person_id",
    "carried_in",
    "thing",
    "count",
    "kg",
    "keeper",
    "taken_over_from",
    "reason",
)


def load_sheet_table(outcome: Document) -> Table:
    """The loads of a solved outcome by name; water, lunch and the sled itself have lines too."""
    return table_of(COLUMNS, list(_rows(outcome)))


def _rows(outcome: Document) -> Iterator[dict[str, Cell]]:
    plan = outcome["plan"]
    things = Things(plan)
    keepers = {keeper.unit_id: keeper.person_id for keeper in keepers_of(plan)}
    taken: dict[tuple[object, ...], list[tuple[str, str]]] = {}
    for one in hand_overs(outcome):
        key = (one.day, one.step, one.taker, one.unit_id)
        taken.setdefault(key, []).append((one.giver, one.reason))
    for trip in plan["trips"]:
        where: dict[str, Cell] = {name: trip[name] for name in COLUMNS[:5]}
        for load in trip["loads"]:
            person_id = load["person_id"]
            for carried_in, unit in _units(load):
                givers = taken.get((trip["day"], trip["step"], person_id, unit["unit_id"]), ())
                yield {
                    **where,
                    "person_id": person_id,
                    "carried_in": carried_in,
                    "thing": things.label(unit["unit_id"]),
                    "count": unit["count"],
                    "kg": _kg(unit),
                    "keeper": keepers.get(unit["unit_id"]),
                    "taken_over_from": ", ".join(who for who, _ in givers) or None,
                    "reason": "; ".join(dict.fromkeys(why for _, why in givers)) or None,
                }


def _units(load: Document) -> Iterator[tuple[str, Document]]:
    """What one person has, with where it is: pack, sled, or in use."""
    yield from (("pack", unit) for unit in load["pack"] if not is_in_use(unit))
    for name in ("water", "lunch"):
        yield "pack", {"unit_id": name, "count": 1, "each_kg": load[f"{name}_kg"]}
    yield from ((load["sled_id"], unit) for unit in load["sled"] if not is_in_use(unit))
    if load["sled_id"] is not None:
        yield load["sled_id"], {"unit_id": "sled", "count": 1, "each_kg": empty_sled_kg(load)}
    for unit_id, count in in_use(load).items():
        yield IN_USE, {"unit_id": unit_id, "count": count, "each_kg": None}


def _kg(unit: Document) -> float | None:
    """The mass of units in a load [kg]; None for what is in use."""
    each_kg = unit["each_kg"]
    return None if each_kg is None else round(unit["count"] * each_kg, 3)


def sheet_parts(outcome: Document) -> Document:
    """The load sheet of a solved outcome, as the answer has it."""
    plan = outcome["plan"]
    things = Things(plan)
    return {
        "keepers": [
            {
                "thing": things.label(keeper.unit_id),
                "count": keeper.count,
                "person_id": keeper.person_id,
                "trips": keeper.trips,
                "others": dict(keeper.others),
                "elsewhere": [one.as_document() for one in keeper.elsewhere],
            }
            for keeper in keepers_of(plan)
        ],
        "rows": list(_rows(outcome)),
        "kitchens": [_kitchen(things, kitchen) for kitchen in kitchens(plan)],
    }


def _kitchen(things: Things, kitchen: Kitchen) -> Document:
    same = ("day", "place", "cook_group", "night_sets", "bags", "fuel_ml")
    return {
        **{name: getattr(kitchen, name) for name in same},
        "night_set": kitchen.set_label,
        "stoves": [_thing(things, one) for one in kitchen.stoves],
        "pots": [_thing(things, one) for one in kitchen.pots],
        "food": [_thing(things, one) for one in kitchen.food],
        "fuel": [_thing(things, one) for one in kitchen.fuel],
    }


def _thing(things: Things, one: KitchenThing) -> Document:
    return {
        "thing": things.label(one.unit_id),
        "count": one.count,
        "brought_by": dict(one.brought_by),
        "brought_day": one.brought_day or None,
    }
