"""The room that an item takes, when it is needed, and on which legs it is in use."""

from __future__ import annotations

from collections.abc import Mapping

from api_schema.gear import PersonalItemRequest
from service.translate.read import defaults, words
from service.translate.read.defaults import PRACTICE
from service.translate.read.notes import Notes
from solver.problem import LegMode, Need, NeedKind

# Looked up some hundred times a request; calling an enumeration takes ten times as long.
_NEEDS: Mapping[str, NeedKind] = {kind.value: kind for kind in NeedKind}
_MODES: Mapping[str, LegMode] = {mode.value: mode for mode in LegMode}


def volume_ml(text: str | None, mass_g: int, pointer: str, notes: Notes) -> int:
    """The packed volume as given, or else by the mass [mL]."""
    if text is not None:
        return notes.volume_up(text, f"{pointer}/volume")
    by_mass_ml = mass_g * defaults.ITEM_ML_PER_G
    notes.assume(
        f"{pointer}/volume",
        f"Packed volume, {defaults.ITEM_ML_PER_G} L for each kilogram.",
        words.litres(by_mass_ml),
        PRACTICE,
    )
    return by_mass_ml


def need_of(item: PersonalItemRequest, up_to: str | None) -> Need:
    """When and where an item is needed, up to a place of the route."""
    return Need(_NEEDS[item.needed], item.from_place, up_to, item.go_ahead, item.may_follow)


def modes_in_use(item: PersonalItemRequest) -> tuple[LegMode, ...]:
    """The modes of legs on which an item is in use, and so in no load."""
    return tuple([_MODES[mode] for mode in item.in_use_on])
