"""The pins that a plan keeps, as the wire has them."""

from __future__ import annotations

from api_schema.pins import PinAnswer
from service.translate.read.requests import ReadRequest
from solver.plan import Plan, TripLoads
from solver.problem import Pin


def write_pins(read: ReadRequest, plan: Plan) -> list[PinAnswer]:
    """Each pin of the request, with its trip and how many such units are in that load."""
    answers = []
    for number, pin in enumerate(read.problem.pins):
        for trip, told in zip(read.timeline.trips, plan.trips, strict=True):
            step = (trip.day, trip.step)
            if step == (pin.day, pin.step) and pin.person_id in trip.person_ids:
                answers.append(_write(read, number, pin, told))
    return answers


def _write(read: ReadRequest, number: int, pin: Pin, told: TripLoads) -> PinAnswer:
    loads = [load for load in told.loads if load.person_id == pin.person_id]
    lines = [line for load in loads for line in (load.sled if pin.on_sled else load.pack)]
    return PinAnswer(
        pointer=read.pointer_of(("pins", number)) or "",
        unit_id=pin.unit_id,
        name=read.names.get(pin.unit_id),
        person_id=pin.person_id,
        day=pin.day,
        step=pin.step,
        from_=told.from_place,
        to=told.to_place,
        in_="sled" if pin.on_sled else "pack",
        count=pin.count,
        carried=sum(line.count for line in lines if line.unit_id == pin.unit_id),
    )
