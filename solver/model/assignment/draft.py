"""A draft: the whole assignment that a search works on."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass

Held = dict[tuple[int, str], int]
"""Units by (cargo, carrier) on one trip."""


@dataclass(frozen=True, slots=True)
class Draft:
    """A whole assignment: units by (cargo, trip, carrier), zeros left out."""

    carried: dict[tuple[int, int, str], int]

    def rides(self) -> dict[tuple[int, int], int]:
        """Units by (cargo, trip)."""
        total: dict[tuple[int, int], int] = defaultdict(int)
        for (cargo, trip, _), units in self.carried.items():
            total[cargo, trip] += units
        return dict(total)
