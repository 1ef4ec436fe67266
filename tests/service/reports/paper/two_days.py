"""A plan of two people and two days, written by hand, in which a few things change hands."""

from typing import Any


def unit(unit_id: str, count: int = 1, each_kg: float = 1.0) -> dict[str, Any]:
    """Units of one kind in a load or store."""
    return {"unit_id": unit_id, "name": None, "count": count, "each_kg": each_kg, "each_l": 1.0}


def load(person_id: str, *pack: dict[str, Any], **facts: Any) -> dict[str, Any]:
    """A load of ten kilograms on a cap of twenty, or what else is said."""
    return {
        "person_id": person_id,
        "pack": list(pack),
        "sled": [],
        "sled_id": None,
        "pack_kg": 10.0,
        "pack_cap_kg": 20.0,
        "sled_kg": 0.0,
        "sled_cap_kg": 0.0,
        "total_kg": 10.0,
        "load_limit_kg": None,
        "load_fraction": 0.5,
        "water_kg": 2.0,
        "lunch_kg": 0.3,
    } | facts


def trip(day: int, step: int, way: tuple[str, str], *loads: dict[str, Any]) -> dict[str, Any]:
    """One party on one leg."""
    return {
        "day": day,
        "date": None,
        "step": step,
        "from": way[0],
        "to": way[1],
        "mode": "pack",
        "loads": list(loads),
    }


def known(unit_id: str, label: str, kind: str, **facts: str) -> dict[str, Any]:
    """What a unit id stands for."""
    return {
        "unit_id": unit_id,
        "label": label,
        "kind": kind,
        "purpose": None,
        "owner": None,
        "cook_group": None,
        "night_sets": None,
        "fuel_ml": None,
    } | facts


AXE = unit("ann/axe")
UNITS = [
    known("stove", "stove", "gear", purpose="stove"),
    known("pot", "pot", "gear", purpose="pot"),
    known("ann/axe", "axe of ann", "gear", owner="ann"),
    known("ann/bag", "bag of ann", "gear", owner="ann"),
    known("all/low", "night set low", "food", cook_group="all"),
    known("all/can", "can", "fuel", cook_group="all"),
    known("all/can/open-1", "can, open", "fuel", cook_group="all"),
    known("trash/1", "trash sack", "waste"),
]
PLAN: dict[str, Any] = {
    "days": [],
    "trips": [
        trip(
            1,
            1,
            ("road", "cache"),
            load("ann", AXE, unit("ann/bag"), unit("stove"), unit("all/low", 3)),
            load("bob", unit("pot"), unit("all/can"), unit("trash/1")),
        ),
        trip(
            1, 2, ("cache", "road"), load("ann", AXE, unit("stove")), load("bob", unit("trash/1"))
        ),
        trip(
            2,
            1,
            ("road", "camp"),
            load("ann", AXE, unit("all/can/open-1"), unit("trash/1"), load_fraction=0.4),
            load("bob", unit("stove"), unit("all/low", 2), pack_kg=9.0, load_fraction=0.7),
        ),
        trip(2, 2, ("cache", "camp"), load("bob", unit("pot"), unit("all/low", 5))),
    ],
    "taken_along": [unit("stove"), unit("pot"), unit("all/low", 8), AXE],
    "stock": [
        {
            "day": 2,
            "place": "camp",
            "cook_groups": [],
            "units": [unit("stove"), unit("pot"), unit("all/can/open-1")],
        }
    ],
    "used": [
        {
            "day": 2,
            "place": "camp",
            "cook_group": "all",
            "set_id": "low",
            "night_sets": 2,
            "bags": 2,
            "fuel_ml": 300,
        }
    ],
    "units": UNITS,
}
OUTCOME: dict[str, Any] = {"plan": PLAN, "peak": {"load_fraction": 0.7}}
