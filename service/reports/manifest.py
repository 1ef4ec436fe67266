"""Who and what is on each flight, one line a person and a kind of unit."""

from collections.abc import Iterator
from typing import Any

from service.reports.tables import Cell, Table, table_of

COLUMNS = (
    "flight_id",
    "direction",
    "what",
    "id",
    "name",
    "count",
    "each_kg",
    "each_l",
    "kg",
    "l",
    "payload_kg",
    "seats",
    "fuel_aboard",
    "pilot",
)

PILOT_DECIDES = "The pilot decides on mass, fuel and gas on board, and whether to fly."
"""What is written on every line, since lines are read one by one."""


def manifest_table(outcome: dict[str, Any]) -> Table:
    """The flights of a solved outcome document; `kg` adds up to what an aircraft lifts."""
    return table_of(COLUMNS, [row for f in outcome["plan"]["flights"] for row in _rows(f)])


def _rows(flight: dict[str, Any]) -> Iterator[dict[str, Cell]]:
    told = ("flight_id", "direction", "payload_kg", "seats")
    head: dict[str, Cell] = {name: flight[name] for name in told}
    head["fuel_aboard"] = "yes" if flight["fuel_aboard"] else "no"
    head["pilot"] = PILOT_DECIDES
    for person in flight["people"]:
        yield {
            **head,
            "what": "person",
            "id": person["person_id"],
            "name": None,
            "count": 1,
            "each_kg": person["kg"],
            "each_l": None,
            "kg": person["kg"],
            "l": None,
        }
    for unit in flight["units"]:
        yield {
            **head,
            "what": "cargo",
            "id": unit["unit_id"],
            "name": unit["name"],
            "count": unit["count"],
            "each_kg": unit["each_kg"],
            "each_l": unit["each_l"],
            "kg": round(unit["count"] * unit["each_kg"], 3),
            "l": round(unit["count"] * unit["each_l"], 3),
        }
