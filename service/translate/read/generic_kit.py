"""The generic personal kit, for people whose kit a request leaves out."""

from __future__ import annotations

from dataclasses import dataclass

from solver.problem import LegMode, NeedKind, Purpose
from solver.rulebook import SourceStatus


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
    source: SourceStatus = SourceStatus.PRACTICE


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

Every piece is common practice, no source, as it says itself.
"""
