"""What a request may leave out: the figures taken then, each with the status of its source.

Where a figure is a range, it is the one on the safe side of typical. All of them are listed in
the answer as assumptions, so that nobody plans on a number that they have not seen.
"""

from __future__ import annotations

from dataclasses import dataclass

from solver.problem import LegMode, NeedKind, Purpose
from solver.rulebook import SourceStatus

READ, PRACTICE, DERIVED = SourceStatus.READ, SourceStatus.PRACTICE, SourceStatus.DERIVED
MEMORY = SourceStatus.MEMORY

ROPE_TEAM_ID = "team"
COOK_GROUP_ID = "all"

PACK_VOLUME_ML = 85_000
WATER_G = 2_000
FIRST_LUNCH_G = 350
TOTAL_CAP_G = 68_000
SLED_TARE_G = 4_000
SLED_MASS_LIMIT_G = 45_000
SLED_VOLUME_ML = 130_000
ITEM_ML_PER_G = 3

FUEL_DENSITY_G_PER_L = 700
FUEL_MARGIN_PERCENT = 12
PACK_VOLUME_ALLOWANCE_PERCENT = 10
WASTE_G_PER_PERSON_NIGHT = 150
SACK_G = 4_000
TRASH_ML_PER_G = 5
WASTE_ML_PER_G = 2


def sled_factor_percent(steepest_deg: float | None) -> int:
    """Share of a sled's limits that holds on a leg of that steepest angle [per cent].

    Common practice gives 100 % on flat ground, 85 % at 10 to 16 degrees, 65 % at 20 to 22 and
    nothing over 25; between those the next steeper figure is taken, and 85 % where the angle is
    not known.
    """
    if steepest_deg is None:
        return 85
    for below_deg, percent in ((10.0, 100), (16.001, 85), (22.001, 65), (25.001, 50)):
        if steepest_deg < below_deg:
            return percent
    return 0


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


@dataclass(frozen=True, slots=True)
class DefaultItem:
    """One item of the generic personal kit."""

    item_id: str
    name: str
    mass_g: int
    volume_ml: int
    kind: NeedKind = NeedKind.EVERY_NIGHT
    in_use_on: tuple[LegMode, ...] = ()
    outside: bool = False
    purpose: Purpose | None = None


_STEEP = (LegMode.PACK, LegMode.FIXED_ROPE, LegMode.SUMMIT)
_TRIP = NeedKind.EVERY_TRIP

PERSONAL_KIT = (
    DefaultItem("pack", "pack, empty", 2300, 0, _TRIP, purpose=Purpose.RUCKSACK),
    DefaultItem(
        "warm-jacket", "light insulated jacket", 520, 6000, _TRIP, purpose=Purpose.WARM_JACKET
    ),
    DefaultItem("shell-jacket", "shell jacket", 500, 3000, _TRIP, purpose=Purpose.SHELL_CLOTHING),
    DefaultItem(
        "shell-trousers", "shell trousers", 520, 3000, _TRIP, purpose=Purpose.SHELL_CLOTHING
    ),
    DefaultItem("gloves", "gloves", 180, 1000, _TRIP, purpose=Purpose.GLOVES),
    DefaultItem("mitts", "mitts", 320, 2500, _TRIP, purpose=Purpose.MITTS),
    DefaultItem("spare-mitts", "spare mitts", 200, 1500, _TRIP, purpose=Purpose.SPARE_MITTS),
    DefaultItem(
        "bottles", "water bottles and flask, empty", 950, 4200, _TRIP, purpose=Purpose.FLASK
    ),
    DefaultItem(
        "sun-kit",
        "glacier glasses, goggles, sun cream",
        350,
        1500,
        _TRIP,
        purpose=Purpose.EYE_PROTECTION,
    ),
    DefaultItem("headlamp", "headlamp and spare cells", 180, 400, _TRIP, purpose=Purpose.HEADLAMP),
    DefaultItem("ice-axe", "ice axe", 480, 0, _TRIP, _STEEP, outside=True),
    DefaultItem("crampons", "crampons in bag", 980, 3000, _TRIP, _STEEP),
    DefaultItem("sleeping-bag", "sleeping bag", 1650, 14000, purpose=Purpose.SLEEPING_BAG),
    DefaultItem("foam-pad", "foam pad", 430, 0, outside=True, purpose=Purpose.SLEEPING_PAD),
    DefaultItem("air-pad", "insulated air pad", 560, 3000, purpose=Purpose.SLEEPING_PAD),
    DefaultItem("parka", "down parka", 950, 11000, purpose=Purpose.WARM_JACKET),
    DefaultItem("spare-layers", "spare layers and socks", 450, 2500, purpose=Purpose.DRY_LAYER),
    DefaultItem("camp-boots", "camp boots", 380, 4000),
    DefaultItem("eating-kit", "bowl, mug, spoon, knife", 350, 2000),
    DefaultItem("night-bottle", "wide-mouth night bottle", 120, 1000),
    DefaultItem("toiletries", "toiletries and own medication", 500, 2000),
    DefaultItem("electronics", "camera or telephone, power bank", 600, 1500),
    DefaultItem("liners", "waterproof liners and sacks", 300, 500),
)
"""Almost 14 kg with the pack, the low end of what is common.

Every piece is common practice, no source.
"""
