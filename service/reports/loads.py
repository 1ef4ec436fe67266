"""Who carries what on which trip, one line a kind of unit, so that the masses add up to gross.

Things in use are with somebody, but in no pack and on no sled: `carried_in` says so, as in the load
sheet, and they have no mass in the load.
"""

from typing import Any

from service.reports.paper.load_sheet import IN_USE
from service.reports.paper.things import is_in_use
from service.reports.sleds import empty_sled_kg
from service.reports.tables import Cell, Table, table_of

COLUMNS = (
    "day",
    "date",
    "step",
    "from",
    "to",
    "person_id",
    "carried_in",
    "unit_id",
    "name",
    "count",
    "each_kg",
    "each_l",
    "kg",
    "l",
)

_ADDED = frozenset({"water", "lunch", "sled"})
"""What has a line of its own and is no unit of the plan."""

_TRIP_COLUMNS = ("day", "date", "step", "from", "to")


def loads_table(outcome: dict[str, Any]) -> Table:
    """The loads of a solved outcome document; water, lunch and the sled itself have lines too."""
    rows: list[dict[str, Cell]] = []
    for trip in outcome["plan"]["trips"]:
        for load in trip["loads"]:
            where = {name: trip[name] for name in _TRIP_COLUMNS} | {"person_id": load["person_id"]}
            pack = [
                *load["pack"],
                _single("water", kg=load["water_kg"]),
                _single("lunch", kg=load["lunch_kg"]),
            ]
            rows.extend(where | _line(unit, "pack") for unit in pack)
            if load["sled_id"] is not None:
                sled = [*load["sled"], _single("sled", kg=empty_sled_kg(load))]
                rows.extend(where | _line(unit, load["sled_id"]) for unit in sled)
    return table_of(COLUMNS, rows)


def _single(unit_id: str, *, kg: float) -> dict[str, Any]:
    return {"unit_id": unit_id, "name": None, "count": 1, "each_kg": round(kg, 3), "each_l": 0.0}


def _line(unit: dict[str, Any], carried_in: str) -> dict[str, Cell]:
    in_use = unit["unit_id"] not in _ADDED and is_in_use(unit)
    return {
        "carried_in": IN_USE if in_use else carried_in,
        **{name: unit[name] for name in ("unit_id", "name", "count", "each_kg", "each_l")},
        "kg": round(unit["count"] * unit["each_kg"], 3),
        "l": round(unit["count"] * unit["each_l"], 3),
    }
