"""Pins of a request: which trip of whom each one means, and pack or sled."""

from __future__ import annotations

from collections.abc import Sequence

from api_schema.pins import PinRequest
from service.translate.read.near_names import unknown_id_words
from service.translate.read.notes import MOST_ADVISED, Notes, pointer_to
from solver.checker.ledger.facts import read_facts
from solver.problem import Pin, Problem, Timeline, Trip


def read_pins(pins: Sequence[PinRequest], notes: Notes) -> tuple[Pin, ...]:
    """All pins in the order of the request; a step that is not given is the first."""
    notes.point(("pins",), "/pins")
    for index in range(len(pins)):
        pointer = pointer_to("pins", index)
        notes.point(("pins", index), pointer)
        notes.point(("pins", index, "on_sled"), f"{pointer}/in")
    return tuple(
        Pin(
            unit_id=pin.unit_id,
            day=pin.day,
            step=1 if pin.step is None else pin.step,
            person_id=pin.person_id,
            on_sled=pin.in_ == "sled",
            count=pin.count,
        )
        for pin in pins
    )


def note_unclear_pins(
    pins: Sequence[PinRequest], problem: Problem, timeline: Timeline, notes: Notes
) -> None:
    """Faults of pins that leave open which trip or carrier they mean, or name no unit."""
    if not pins:
        return
    sled_of = {sled.hauler_id: sled.sled_id for sled in problem.sleds}
    for index, pin in enumerate(pins):
        if problem.is_over(pin.day):
            continue
        pointer = pointer_to("pins", index)
        theirs = [t for t in timeline.trips if t.day == pin.day and pin.person_id in t.person_ids]
        if pin.step is None and len(theirs) > 1:
            words = f"{pin.person_id} makes several trips on day {pin.day}. Give one of: "
            notes.fault(pointer, "missing", f"{words}{_steps(theirs)}.")
            continue
        trip = timeline.trip_of(pin.person_id, pin.day, pin.step or 1)
        if trip is not None and pin.in_ is None and sled_of.get(pin.person_id) in trip.sled_ids:
            words = f"{pin.person_id} hauls a sled there. Say whether this is in the pack or on it."
            notes.fault(pointer, "missing", f'{words} Give in: "pack" or "sled".')
    _note_unknown_units(pins, problem, timeline, notes)


def _note_unknown_units(
    pins: Sequence[PinRequest], problem: Problem, timeline: Timeline, notes: Notes
) -> None:
    known = sorted(read_facts(problem, timeline).units)
    there = frozenset(known)
    for index, pin in enumerate(pins):
        if pin.unit_id not in there:
            advised = len(notes.faults) < MOST_ADVISED
            words = unknown_id_words("unit", pin.unit_id, known, advised=advised)
            notes.fault(pointer_to("pins", index, "unit_id"), "unknown_id", words)


def _steps(trips: Sequence[Trip]) -> str:
    return "; ".join(f"step {trip.step}, {trip.from_place} to {trip.to_place}" for trip in trips)
