"""Drafts seen trip by trip, and put together again."""

from __future__ import annotations

from collections.abc import Sequence

from solver.model.assignment.draft import Draft, Held
from solver.model.formulation.flow_row import Rides
from solver.model.formulation.frame import Frame


def by_trip(frame: Frame, draft: Draft) -> list[Held]:
    """A draft's units by (cargo, carrier), one entry for each trip."""
    held: list[Held] = [{} for _ in frame.world.timeline.trips]
    for (cargo, trip, carrier), units in sorted(draft.carried.items()):
        held[trip][cargo, carrier] = units
    return held


def join(held_by_trip: Sequence[Held]) -> Draft:
    """The draft of which these are the trips."""
    return Draft(
        {
            (cargo, trip, carrier): units
            for trip, held in enumerate(held_by_trip)
            for (cargo, carrier), units in held.items()
        }
    )


def join_one(trip: int, held: Held) -> Draft:
    """A draft of one trip alone."""
    return Draft({(cargo, trip, carrier): units for (cargo, carrier), units in held.items()})


def riding(held: Held) -> dict[int, int]:
    """The units of each cargo on one trip."""
    units_of: dict[int, int] = {}
    for (cargo, _), units in sorted(held.items()):
        units_of[cargo] = units_of.get(cargo, 0) + units
    return units_of


def riding_by_trip(frame: Frame, rides: Rides) -> list[dict[int, int]]:
    """For each trip, the units of each cargo that ride on it."""
    units_of: list[dict[int, int]] = [{} for _ in frame.world.timeline.trips]
    for (cargo, trip), units in sorted(rides.items()):
        if units:
            units_of[trip][cargo] = units
    return units_of
