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
        mass_g = self.mass_g[trip] + self.frame.weight(cargo, trip, of_mass=True)
        volume_ml = self.volume_ml[trip] + self.frame.weight(cargo, trip, of_mass=False)
        return max(
            FRACTION_GRID * mass_g // self.capacity_g[trip],
            FRACTION_GRID * volume_ml // self.capacity_ml[trip],
        )

    def add(self, cargo: int, trip: int) -> None:
        """Take a unit along."""
        self.mass_g[trip] += self.frame.weight(cargo, trip, of_mass=True)
        self.volume_ml[trip] += self.frame.weight(cargo, trip, of_mass=False)
