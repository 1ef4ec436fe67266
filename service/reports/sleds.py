"""The sled itself in a load: loads and load sheet have a line for it."""

from typing import Any


def empty_sled_kg(load: dict[str, Any]) -> float:
    """The mass of the sled without what is on it [kg]."""
    on_sled_kg: float = sum(unit["count"] * unit["each_kg"] for unit in load["sled"])
    with_load_kg: float = load["sled_kg"]
    return round(with_load_kg - on_sled_kg, 3)
