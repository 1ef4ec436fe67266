"""What is packed before the first day: what each person brings, and what the party shares."""

from typing import Any

from service.reports.tables import Cell, Table, table_of

SHARED = "shared"
COLUMNS = ("for", "unit_id", "name", "count", "each_kg", "kg", "counted", "weighed_kg")


def packing_list_table(outcome: dict[str, Any]) -> Table:
    """Everything that is at the start before the first trip, by owner, with room to write.

    The last two columns are empty: what was counted, and what one of it weighs.
    """
    people = people_of(outcome)
    rows: list[dict[str, Cell]] = [
        {
            "for": owner_of(unit["unit_id"], people),
            **{name: unit[name] for name in ("unit_id", "name", "count", "each_kg")},
            "kg": round(unit["count"] * unit["each_kg"], 3),
            "counted": None,
            "weighed_kg": None,
        }
        for unit in outcome["plan"]["taken_along"]
    ]
    order = [SHARED, *people]
    return table_of(COLUMNS, sorted(rows, key=lambda row: order.index(str(row["for"]))))


def people_of(outcome: dict[str, Any]) -> list[str]:
    """The people of a plan in the order in which they carry."""
    trips = outcome["plan"]["trips"]
    return list(dict.fromkeys(load["person_id"] for trip in trips for load in trip["loads"]))


def owner_of(unit_id: str, people: list[str]) -> str:
    """Whose a unit is: `lead/sleeping-bag` is the lead's; others are shared."""
    owner = unit_id.partition("/")[0]
    return owner if owner in people else SHARED
