"""Reserves of a request: storm nights of places, and what is held on top."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from api_schema.plan_request import PlanRequest
from service.translate.read.defaults import PRACTICE
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
    reserves: list[Reserve] = []

    def add(reserve: Reserve, pointer: str) -> None:
        group, place = reserve.cook_group_id, reserve.place_id
        set_id = reserve.set_id or storm_sets.get(group) or set_at.get(group, {}).get(place)
        if set_id is None:
            notes.fault(
                pointer,
                "no_night_set",
                f"No storm set and no night set at {place} is known for cook group {group}. Name "
                "the set_id of the reserve.",
            )
            return
        notes.point(("reserves", len(reserves)), pointer)
        reserves.append(replace(reserve, set_id=set_id))

    for index, wire in enumerate(request.route.places):
        if wire.storm_nights:
            pointer = pointer_to("route", "places", index, "storm_nights")
            for group in _holders(wire.place_id, ReserveKind.STORM, slept_at):
                notes.point(("reserves", len(reserves), "place_id"), pointer)
                storm = Reserve(wire.place_id, group, ReserveKind.STORM, wire.storm_nights, "")
                add(storm, pointer)
    for index, reserve in enumerate(request.reserves):
        pointer = pointer_to("reserves", index)
        kind = ReserveKind(reserve.kind)
        if reserve.cook_group is not None:
            groups: tuple[str, ...] = (reserve.cook_group,)
        else:
            groups = _holders(reserve.place, kind, slept_at)
        for group in groups:
            notes.point(("reserves", len(reserves), "place_id"), f"{pointer}/place")
            held = Reserve(
                place_id=reserve.place,
                cook_group_id=group,
                kind=kind,
                nights=reserve.nights,
                set_id=reserve.set_id or "",
                people=reserve.people,
            )
            add(held, pointer)
    if not reserves:
        notes.assume("/reserves", "Nights of food and fuel held in reserve.", "none", PRACTICE)
    return tuple(reserves)


def _holders(place: str, kind: ReserveKind, slept_at: SleptAt) -> tuple[str, ...]:
    """The cook groups that hold a reserve for all; those that never sleep there need none."""
    sleeping = tuple(group for group, places in slept_at.items() if place in places)
    return tuple(slept_at) if kind is ReserveKind.BASE_WAIT or not sleeping else sleeping
