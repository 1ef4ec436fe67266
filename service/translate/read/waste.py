"""What a request says of waste and trash, read onto the grid."""

from __future__ import annotations

from collections.abc import Callable

from api_schema.reserves import WasteRequest
from service.translate.read import defaults
from service.translate.read.defaults import Default
from service.translate.read.notes import Notes
from solver.problem import Waste


def read_waste(waste: WasteRequest, notes: Notes) -> Waste:
    """What people and packaging leave, and the sacks that it is carried down in."""
    notes.point(("waste",), "/waste")
    return Waste(
        waste_g_per_person_night=_figure(
            waste.per_person_night,
            "per_person_night",
            defaults.WASTE_OF_PERSON_NIGHT,
            notes.mass_up,
            notes,
        ),
        trash_sack_g=_figure(
            waste.trash_sack, "trash_sack", defaults.TRASH_SACK, notes.mass_down, notes
        ),
        human_waste_sack_g=_figure(
            waste.human_waste_sack, "human_waste_sack", defaults.WASTE_SACK, notes.mass_down, notes
        ),
        trash_ml_per_g=_figure(
            waste.trash_density, "trash_density", defaults.TRASH_ROOM, notes.room_up, notes
        ),
        human_waste_ml_per_g=_figure(
            waste.human_waste_density,
            "human_waste_density",
            defaults.WASTE_ROOM,
            notes.room_up,
            notes,
        ),
        may_be_left=waste.may_be_left,
    )


def _figure(
    text: str | None,
    field: str,
    default: Default,
    read: Callable[[str, str], int],
    notes: Notes,
) -> int:
    """What is given, read onto the grid, or else the default."""
    pointer = f"/waste/{field}"
    return notes.default(pointer, default) if text is None else read(text, pointer)
