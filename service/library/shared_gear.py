"""Shared gear that many parties take, with typical masses.

Every mass is from memory, unverified: what such a thing tends to weigh, for a list to begin with.
Nobody should carry by these numbers. Weigh each item and write its mass.
"""

from __future__ import annotations

from dataclasses import dataclass

from api_schema.gear import NeedName, PurposeName
from solver.rulebook import SourceStatus

TYPICAL = "typical, not weighed"
SOURCE = str(SourceStatus.MEMORY)


@dataclass(frozen=True, slots=True)
class GenericItem:
    """A shared item: its mass [g], packed volume [mL], when it is needed and what it is for."""

    item_id: str
    name: str
    mass_g: int
    volume_ml: int
    needed: NeedName = "every_night"
    purpose: PurposeName | None = None
    shelter_places: int | None = None
    communicator_kind: str | None = None
    capacity_ml: int | None = None


SHARED_GEAR = (
    GenericItem("tent-2", "tent for two", 3200, 11000, purpose="shelter", shelter_places=2),
    GenericItem("tent-3", "tent for three", 4100, 14000, purpose="shelter", shelter_places=3),
    GenericItem("cook-shelter", "floorless cook shelter", 2200, 8000),
    GenericItem("bivy-2", "bivy shelter for two", 550, 2000, "every_trip", "shelter", 2),
    GenericItem("liquid-stove", "liquid-fuel stove with pump", 520, 1500, purpose="stove"),
    GenericItem("gas-stove", "gas stove", 250, 700, purpose="stove"),
    GenericItem("spare-pump", "spare pump and seals", 120, 300, purpose="pump"),
    GenericItem("melting-pot", "pot for melting snow, 5 L", 700, 6000, purpose="pot"),
    GenericItem("cooking-pot", "pot with lid, 2 L", 350, 2500, purpose="pot"),
    GenericItem("stove-board", "stove board and windscreen", 300, 800),
    GenericItem("lighters", "lighters and matches", 90, 200, purpose="lighter"),
    GenericItem("rope-50", "half rope, 50 m", 2500, 6000, "every_trip", "rope"),
    GenericItem("rope-30", "rope, 30 m", 1500, 3500, "every_trip", "rope"),
    GenericItem("rescue-kit", "crevasse rescue kit", 1400, 2500, "every_trip", "rescue_kit"),
    GenericItem("picket", "snow picket with sling", 450, 600, "every_trip"),
    GenericItem("ice-screw", "ice screw", 150, 200, "every_trip"),
    GenericItem("shovel", "snow shovel", 750, 3000, "every_trip", "shovel"),
    GenericItem("saw", "snow saw", 350, 1200),
    GenericItem("probe", "avalanche probe", 300, 500, "every_trip"),
    GenericItem("medical-kit", "medical kit of a party", 1500, 4000, "every_trip", "medical_kit"),
    GenericItem(
        "satellite-messenger",
        "satellite messenger",
        150,
        250,
        "every_trip",
        "communicator",
        communicator_kind="satellite messenger",
    ),
    GenericItem(
        "satellite-telephone",
        "satellite telephone with spare battery",
        450,
        800,
        "every_trip",
        "communicator",
        communicator_kind="satellite telephone",
    ),
    GenericItem("navigation", "map, compass, receiver", 350, 700, "every_trip", "navigation"),
    GenericItem("repair-kit", "repair kit", 700, 1500),
    GenericItem("solar-panel", "solar panel and power bank", 900, 2500),
    GenericItem("wand", "wand with flag", 50, 150, "at_place", "wand"),
    GenericItem("marker-pole", "pole for a cache, 2 m", 450, 1000, "at_place", "marker_pole"),
    GenericItem(
        "waste-container",
        "container for human waste, 8 L",
        900,
        10000,
        purpose="human_waste_container",
        capacity_ml=8000,
    ),
)
