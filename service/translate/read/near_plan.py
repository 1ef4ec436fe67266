"""A former plan that the answer is to stay near to."""

from __future__ import annotations

from collections.abc import Sequence

from api_schema.edited_plan import EditedStowed
from api_schema.plan_request import OptionsRequest
from service.translate.read.notes import Notes
from solver.plan import Load, Plan, Stowed, TripLoads


def read_near_plan(options: OptionsRequest, notes: Notes) -> Plan | None:
    """The loads of the former plan; None where none is given.

    Masses play no part in how near a plan is, so they are left out. A `plan_id` alone says nothing
    here: who accepts a request for a plan puts the trips beside it.
    """
    near = options.near_plan
    if near is None:
        return None
    if near.trips is None:
        if near.plan_id is None:
            notes.fault("/options/near_plan", "missing", "Give plan_id or trips.")
        return None
    trips = tuple(
        TripLoads(
            day=trip.day,
            step=trip.step,
            from_place=trip.from_,
            to_place=trip.to,
            loads=tuple(
                Load(
                    load.person_id,
                    water_g=0,
                    lunch_g=0,
                    pack=_units(load.pack),
                    sled_id=load.sled_id,
                    sled=_units(load.sled),
                )
                for load in trip.loads
            ),
        )
        for trip in near.trips
    )
    return Plan(trips=trips, stock=())


def _units(stowed: Sequence[EditedStowed]) -> tuple[Stowed, ...]:
    return tuple(Stowed(one.unit_id, one.count, 0, 0) for one in stowed if one.count)
