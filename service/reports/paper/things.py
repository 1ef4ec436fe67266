"""The things of a plan by name, and who carries how many of each on each trip."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

Document = dict[str, Any]

STOVE, POT, SHELTER = "stove", "pot", "shelter"


class Things:
    """Names and kinds of the units of one plan; `times` stands between a number and a name."""

    def __init__(self, plan: Document, times: str = "x") -> None:
        self._times = times
        self._units: dict[str, Document] = {u["unit_id"]: u for u in plan.get("units", ())}

    def label(self, unit_id: str) -> str:
        """What to call one of them; its id where the plan does not say."""
        unit = self._units.get(unit_id)
        return unit_id if unit is None else str(unit["label"])

    def kind(self, unit_id: str) -> str:
        """Gear, food, fuel, waste or sled."""
        unit = self._units.get(unit_id)
        return "gear" if unit is None else str(unit["kind"])

    def purpose(self, unit_id: str) -> str | None:
        """What it is for, where that is known."""
        unit = self._units.get(unit_id)
        return None if unit is None else unit["purpose"]

    def owner(self, unit_id: str) -> str | None:
        """Whose personal thing it is; None for what belongs to all."""
        unit = self._units.get(unit_id)
        return None if unit is None else unit["owner"]

    def cook_group(self, unit_id: str) -> str | None:
        """Whose food or fuel it is."""
        unit = self._units.get(unit_id)
        return None if unit is None else unit["cook_group"]

    def listed(self, counts: Mapping[str, int], whose: str | None = None) -> str:
        """Things in words, such as `tent; 2 x night set low`; one's own without saying whose."""
        words = (self.counted(unit_id, count) for unit_id, count in counts.items())
        return "; ".join(word.removesuffix(f" of {whose}") for word in words)

    def counted(self, unit_id: str, count: int) -> str:
        """So many of one thing in words."""
        label = self.label(unit_id)
        return label if count == 1 else f"{count} {self._times} {label}"


def night_sets(number: int) -> str:
    """So many night sets."""
    return "1 night set" if number == 1 else f"{number} night sets"


def counts_of(units: Iterable[Document]) -> dict[str, int]:
    """How many there are of each unit id."""
    counts: dict[str, int] = {}
    for unit in units:
        counts[unit["unit_id"]] = counts.get(unit["unit_id"], 0) + unit["count"]
    return counts


def stowed(units: Iterable[Document]) -> dict[str, int]:
    """How many there are of each unit id in a pack or on a sled, without those in use."""
    return counts_of(unit for unit in units if not is_in_use(unit))


def in_use(load: Document) -> dict[str, int]:
    """What one person has on or in hand on a trip, in no pack and on no sled."""
    return counts_of(unit for unit in (*load["pack"], *load["sled"]) if is_in_use(unit))


def is_in_use(unit: Document) -> bool:
    """Whether units of a load are worn or in use: then they add no mass to it."""
    return float(unit["each_kg"]) == 0.0


def carried(load: Document) -> dict[str, int]:
    """What one person has on a trip: in the pack, on the sled and in use."""
    return counts_of((*load["pack"], *load["sled"]))


def by_unit(trip: Document) -> dict[str, dict[str, int]]:
    """By unit id, how many each person has on a trip."""
    has: dict[str, dict[str, int]] = {}
    for load in trip["loads"]:
        for unit_id, count in carried(load).items():
            has.setdefault(unit_id, {})[load["person_id"]] = count
    return has
