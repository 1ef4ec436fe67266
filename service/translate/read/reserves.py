"""Reserves of a request: storm nights of places, and what is held on top."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from api_schema.plan_request import PlanRequest
from service.translate.read.defaults import PRACTICE
from service.translate.read.guests import is_guest, of_kitchen
from service.translate.read.menu_types import SetAt, SleptAt
from service.translate.read.notes import Notes, pointer_to
from solver.problem import (
    NightSet,
    Reserve,
    ReserveKind,
)


def read_reserves(
    request: PlanRequest,
    night_sets: Sequence[NightSet],
    set_at: SetAt,
    slept_at: SleptAt,
    notes: Notes,
) -> tuple[Reserve, ...]:
    """Storm nights of places and reserves of the request, one for each cook group."""
    storm_sets = {s.cook_group_id: s.set_id for s in reversed(night_sets) if s.storm}
    listed = {(s.cook_group_id, s.set_id) for s in night_sets}
    reserves: list[Reserve] = []
    for held, pointer, place_pointer in _asked_for(request, slept_at):
        group, place = held.cook_group_id, held.place_id
        # A menu that has no set of that name holds its own.
        named = held.set_id if (group, held.set_id) in listed or not is_guest(group) else ""
        set_id = named or storm_sets.get(group) or set_at.get(group, {}).get(place)
        notes.point(("reserves", len(reserves), "place_id"), place_pointer)
        if set_id is None:
            notes.fault(
                pointer,
                "no_night_set",
                f"No storm set and no night set at {place} is known for cook group {group}. Name "
                "the set_id of the reserve.",
            )
            continue
        notes.point(("reserves", len(reserves)), pointer)
        reserves.append(replace(held, set_id=set_id))
    if not reserves:
        notes.assume("/reserves", "Nights of food and fuel held in reserve.", "none", PRACTICE)
    return tuple(reserves)


def _asked_for(request: PlanRequest, slept_at: SleptAt) -> Iterator[tuple[Reserve, str, str]]:
    """Each reserve with the set that it names, if any, its address and that of its place."""
    for index, place in enumerate(request.route.places):
        if place.storm_nights:
            pointer = pointer_to("route", "places", index, "storm_nights")
            for group in _holders(place.place_id, ReserveKind.STORM, slept_at):
                storm = Reserve(place.place_id, group, ReserveKind.STORM, place.storm_nights, "")
                yield storm, pointer, pointer
    for index, wire in enumerate(request.reserves):
        pointer = pointer_to("reserves", index)
        kind = ReserveKind(wire.kind)
        named = wire.cook_group
        theirs = None if named is None else of_kitchen(named, slept_at) or (named,)
        for group in theirs or _holders(wire.place, kind, slept_at):
            held = Reserve(
                place_id=wire.place,
                cook_group_id=group,
                kind=kind,
                nights=wire.nights,
                set_id=wire.set_id or "",
                people=wire.people,
            )
            yield held, pointer, f"{pointer}/place"


def _holders(place: str, kind: ReserveKind, slept_at: SleptAt) -> tuple[str, ...]:
    """The cook groups that hold a reserve for all; those that never sleep there need none."""
    sleeping = tuple(group for group, places in slept_at.items() if place in places)
    return tuple(slept_at) if kind is ReserveKind.BASE_WAIT or not sleeping else sleeping
