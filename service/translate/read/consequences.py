"""Which faults of a mended request may come of the mending, and so are not told."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from service.errors import Fault
from service.translate.read.wire_faults import Location, pointer_of

_WITHOUT_PEOPLE = frozenset({"teleports", "place_repeated", "no_leg", "not_back_at_start"})
"""Faults of the calendar that are the same whoever goes."""

_ANYWHERE = frozenset({"duplicate_id", "out_of_range", "too_small", "too_large", "missing"})
"""Faults of one field or list, whatever the rest of the request is."""

_OF_AMOUNTS = frozenset(
    {
        "bags_not_whole",
        "band_upside_down",
        "less_than_content",
        "no_containers",
        "no_night_set",
        "parts_differ_from_whole",
        "parts_exceed_whole",
        "several_night_sets",
        "shares_do_not_add_up",
        "sled_cannot_go",
        "too_few_bags",
        "too_few_containers",
        "too_many_left",
        "turns_round_too_soon",
    }
)
"""Faults that put the figures of several fields together, of which one may be made up."""

_WORDS = frozenset({"title", "reference", "name", "note", "role", "start_date", "reason", "seed"})
"""Fields that no other fault depends on."""

_NAMES = frozenset({"from", "to", "hauler", "second_hauler", "place", "up_to", "from_place"})
"""Fields with the id of something, besides those that end in `_id`."""

_WAY = frozenset({"/route", "/route/places", "/route/legs", "/calendar"})


@dataclass(frozen=True, slots=True)
class Consequences:
    """What may follow from replacing parts of a request."""

    pointers: tuple[str, ...]
    way_lost: bool
    roster_lost: bool
    names_lost: bool
    figures_lost: bool

    @classmethod
    def of(cls, replaced: Sequence[Location]) -> Consequences:
        """What may follow from replacing what is at these addresses."""
        pointers = tuple(pointer_of(location) for location in replaced)
        last = {str(location[-1]) for location in replaced}
        holders = {_list_of(pointer) for pointer in pointers}
        names = {f for f in last if f.endswith("_id") or f.isdecimal() or f in _NAMES}
        return cls(
            pointers,
            way_lost=bool(holders & _WAY),
            roster_lost="/roster" in holders,
            names_lost=bool(names | (last & {"[key]", "cook_group", "rope_team", "personal_kit"})),
            figures_lost=bool(last - names - _WORDS),
        )

    def has(self, fault: Fault) -> bool:
        """Whether a fault may come of the replacing."""
        return (
            (self.way_lost and not _without_way(fault))
            or (self.roster_lost and self._may_be_of_the_roster(fault))
            or (self.names_lost and fault.code == "unknown_id")
            or (self.figures_lost and fault.code in _OF_AMOUNTS)
            or (fault.code == "other_purpose" and _beside(fault.pointer) in self.pointers)
            or any(touch(fault.pointer, pointer) for pointer in self.pointers)
        )

    def _may_be_of_the_roster(self, fault: Fault) -> bool:
        kept = fault.code in _WITHOUT_PEOPLE | _ANYWHERE
        return not kept and not fault.pointer.startswith("/route")


def _beside(pointer: str) -> str:
    """The purpose of the item that a field belongs to."""
    return pointer.rpartition("/")[0] + "/purpose"


def _list_of(pointer: str) -> str:
    """The list whose entry a pointer names, or else what it names."""
    holder, _, last = pointer.rpartition("/")
    return holder if last.isdecimal() else pointer


def _without_way(fault: Fault) -> bool:
    """Whether a fault is one, whatever the route and the calendar are."""
    names_a_person = fault.code == "unknown_id" and fault.pointer.startswith(("/sleds", "/roster"))
    return fault.code in _ANYWHERE or names_a_person


def touch(one: str, other: str) -> bool:
    """Whether one of two places holds the other, or is it."""
    return (one + "/").startswith(other + "/") or (other + "/").startswith(one + "/")
