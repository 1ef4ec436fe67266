"""Faults of pins: people unknown, trips that nobody makes, sleds that are not hauled there."""

from __future__ import annotations

from collections.abc import Iterator

from solver.errors import ProblemFault
from solver.problem.fault_checks.wording import Path, below, unknown_id
from solver.problem.pins import Pin
from solver.problem.problem import Problem
from solver.problem.timeline import Timeline, Trip


def pin_faults(problem: Problem) -> Iterator[ProblemFault]:
    """Pins that stand twice, pin nothing, or name people who are unknown."""
    people = [person.person_id for person in problem.roster]
    seen: set[tuple[str, int, int, str, bool]] = set()
    for index, pin in enumerate(problem.pins):
        where: Path = ("pins", index)
        if pin.person_id not in people:
            yield unknown_id((*where, "person_id"), pin.person_id, "person", people)
        yield from below((*where, "count"), pin.count, 1, "A count", "")
        key = (pin.unit_id, pin.day, pin.step, pin.person_id, pin.on_sled)
        if key in seen:
            yield ProblemFault(
                where,
                "duplicate_id",
                f"There is another pin of {pin.unit_id} in the same load. Give one with the count "
                "of both.",
            )
        seen.add(key)


def pinned_trip_faults(problem: Problem, timeline: Timeline) -> Iterator[ProblemFault]:
    """Pins on trips that their person does not make, or on a sled that the person does not haul.

    Trips that are over are of no concern any more.
    """
    hauled_by = {sled.hauler_id: sled.sled_id for sled in problem.sleds}
    for index, pin in enumerate(problem.pins):
        if problem.is_over(pin.day):
            continue
        trip = timeline.trip_of(pin.person_id, pin.day, pin.step)
        if trip is None:
            yield _no_trip(timeline, index, pin)
        elif pin.on_sled and hauled_by.get(pin.person_id) not in trip.sled_ids:
            yield ProblemFault(
                ("pins", index, "on_sled"),
                "no_sled_there",
                f"{pin.person_id} hauls no sled on day {pin.day} from {trip.from_place} to "
                f"{trip.to_place}. Name the pack, or another trip.",
            )


def _no_trip(timeline: Timeline, index: int, pin: Pin) -> ProblemFault:
    """Which steps the person makes on that day, or on which days there are any."""
    theirs = [trip for trip in timeline.trips if pin.person_id in trip.person_ids]
    steps = [trip for trip in theirs if trip.day == pin.day]
    if steps:
        words = "; ".join(map(_step_words, steps))
        detail = f"{pin.person_id} makes no step {pin.step} on day {pin.day}, but {words}."
        return ProblemFault(("pins", index, "step"), "no_such_trip", detail)
    days = ", ".join(str(day) for day in dict.fromkeys(trip.day for trip in theirs)) or "none"
    detail = f"{pin.person_id} makes no trip on day {pin.day}. Days with trips: {days}."
    return ProblemFault(("pins", index, "day"), "no_such_trip", detail)


def _step_words(trip: Trip) -> str:
    return f"step {trip.step} from {trip.from_place} to {trip.to_place}"
