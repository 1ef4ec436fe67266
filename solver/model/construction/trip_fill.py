"""How full each trip of a plan in the making is."""

from __future__ import annotations

from dataclasses import dataclass, field

from solver.model.formulation.frame import Frame
from solver.quantities import FRACTION_GRID


@dataclass(slots=True)
class TripFill:
    """How full each trip is: mass and volume so far, against what its carriers hold."""

    frame: Frame
    mass_g: list[int] = field(default_factory=list)
    volume_ml: list[int] = field(default_factory=list)
    capacity_g: list[int] = field(default_factory=list)
    capacity_ml: list[int] = field(default_factory=list)

    def __post_init__(self) -> None:
        """Begin with what is on bodies and sleds anyhow."""
        for rows in self.frame.load_rows:
            of_mass = [row for row in rows if row.of_mass and row.in_fraction]
            self.mass_g.append(sum(row.fixed for row in of_mass if row.in_pack != row.in_sled))
            self.capacity_g.append(max(1, sum(r.cap for r in of_mass if r.in_pack != r.in_sled)))
            self.volume_ml.append(0)
            self.capacity_ml.append(max(1, sum(row.cap for row in rows if not row.of_mass)))

    def fraction_with(self, cargo: int, trip: int) -> int:
        """How full a trip is with one more unit [1/10,000]."""
        return self._fraction(
            trip,
            self.frame.weight(cargo, trip, of_mass=True),
            self.frame.weight(cargo, trip, of_mass=False),
        )

    def fraction(self, trip: int) -> int:
        """How full a trip is [1/10,000]."""
        return self._fraction(trip, 0, 0)

    def add(self, cargo: int, trip: int, *, units: int = 1) -> None:
        """Take units along, or fewer of them."""
        self.mass_g[trip] += units * self.frame.weight(cargo, trip, of_mass=True)
        self.volume_ml[trip] += units * self.frame.weight(cargo, trip, of_mass=False)

    def _fraction(self, trip: int, more_g: int, more_ml: int) -> int:
        return max(
            FRACTION_GRID * (self.mass_g[trip] + more_g) // self.capacity_g[trip],
            FRACTION_GRID * (self.volume_ml[trip] + more_ml) // self.capacity_ml[trip],
        )
