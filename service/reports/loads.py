"""Who carries what on which trip, one line a kind of unit, so that the masses add up to gross."""

from typing import Any

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
            rows.extend(where | {"carried_in": "pack"} | _line(unit) for unit in pack)
            if load["sled_id"] is not None:
                on_sled_kg = sum(unit["count"] * unit["each_kg"] for unit in load["sled"])
                sled = [*load["sled"], _single("sled", kg=load["sled_kg"] - on_sled_kg)]
                rows.extend(where | {"carried_in": load["sled_id"]} | _line(unit) for unit in sled)
    return table_of(COLUMNS, rows)


def _single(unit_id: str, *, kg: float) -> dict[str, Any]:
    return {"unit_id": unit_id, "name": None, "count": 1, "each_kg": round(kg, 3), "each_l": 0.0}


def _line(unit: dict[str, Any]) -> dict[str, Cell]:
    return {
        **{name: unit[name] for name in ("unit_id", "name", "count", "each_kg", "each_l")},
        "kg": round(unit["count"] * unit["each_kg"], 3),
        "l": round(unit["count"] * unit["each_l"], 3),
    }
