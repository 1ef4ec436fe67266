"""Starter menus: night sets to begin with, as `menu` of a request takes them.

Masses and energies are from memory, unverified, near the generic night sets that a request without
a menu gets. What is in the food is not said, so that nobody relies on it for an allergy.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from service.translate.read.generic_food import HIGH, LOW, MID, STORM, DefaultSet

_MIDDLE, _HIGH = "3000 m", "4000 m"
_BANDS = (
    (LOW, {"below_elevation": _MIDDLE}),
    (MID, {"from_elevation": _MIDDLE, "below_elevation": _HIGH}),
    (HIGH, {"from_elevation": _HIGH}),
    (STORM, {"storm": True}),
)


@dataclass(frozen=True, slots=True)
class StarterMenu:
    """A menu with its name, and by how much its sets are heavier than the generic ones [%]."""

    menu_id: str
    name: str
    heavier_percent: int
    simmers: bool
    diet: str | None = None

    def document(self) -> dict[str, Any]:
        """The menu as a request takes it."""
        return {"night_sets": [self._night_set(chosen, where) for chosen, where in _BANDS]}

    def _night_set(self, chosen: DefaultSet, where: dict[str, Any]) -> dict[str, Any]:
        share = 1 + self.heavier_percent / 100
        diets = {} if self.diet is None else {"suits_diets": [self.diet]}
        return {
            "set_id": chosen.set_id,
            "name": f"{self.name}, {chosen.set_id}",
            "mass": f"{round(chosen.gross_g * share)} g",
            "packaging": f"{chosen.packaging_g} g",
            "lunch": f"{chosen.lunch_g} g",
            "volume": f"{round(chosen.volume_ml * share)} mL",
            "energy_kcal": chosen.energy_kcal,
            "simmers": self.simmers,
            **diets,
            **where,
        }


STARTER_MENUS = (
    StarterMenu("dried", "freeze-dried dinners, only boiling water", 0, simmers=False),
    StarterMenu("dried-vegetarian", "freeze-dried, no meat", 2, simmers=False, diet="vegetarian"),
    StarterMenu("cooked", "dry staples that are cooked", 8, simmers=True),
)
