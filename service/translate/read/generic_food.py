"""Generic night sets and fuel bottles, for requests that leave menu or containers out."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class DefaultSet:
    """A generic night set and the height band in which it is used [m]; its fuel is reckoned."""

    set_id: str
    name: str
    gross_g: int
    packaging_g: int
    lunch_g: int
    volume_ml: int
    energy_kcal: int
    from_m: int | None = None
    below_m: int | None = None

    @property
    def band(self) -> str:
        """Where it is used, in words."""
        if self.from_m is None and self.below_m is None:
            return "held in reserve"
        if self.from_m is None:
            return f"below {self.below_m} m"
        return f"from {self.from_m} m" + ("" if self.below_m is None else f" to {self.below_m} m")


LOW = DefaultSet("low", "generic night set, low", 980, 60, 350, 2300, 4100, below_m=3000)
MID = DefaultSet("mid", "generic night set, middle", 890, 60, 340, 2100, 3800, 3000, 4000)
HIGH = DefaultSet("high", "generic night set, high", 760, 55, 300, 1800, 3300, from_m=4000)
STORM = DefaultSet("storm", "generic storm set", 690, 40, 200, 1600, 3000)

BANDS = (LOW, MID, HIGH)


@dataclass(frozen=True, slots=True)
class DefaultContainer:
    """A generic fuel bottle, filled to three quarters."""

    container_id: str = "bottle"
    name: str = "1 L fuel bottle, filled to three quarters"
    content_ml: int = 750
    tare_g: int = 190
    volume_ml: int = 1_200


BOTTLE = DefaultContainer()
