"""What stands at each place after each night, one line a kind of unit."""

from typing import Any

from service.reports.tables import Cell, Table, table_of

COLUMNS = ("day", "date", "place", "unit_id", "name", "count", "each_kg", "each_l", "kg", "l")


def stock_table(outcome: dict[str, Any]) -> Table:
    """The stock of a solved outcome document; day 0 is the start."""
    rows: list[dict[str, Cell]] = [
        {
            **{name: night[name] for name in ("day", "date", "place")},
            **{name: unit[name] for name in ("unit_id", "name", "count", "each_kg", "each_l")},
            "kg": round(unit["count"] * unit["each_kg"], 3),
            "l": round(unit["count"] * unit["each_l"], 3),
        }
        for night in outcome["plan"]["stock"]
        for unit in night["units"]
    ]
    return table_of(COLUMNS, rows)
