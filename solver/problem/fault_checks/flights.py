"""Faults of flights and early leaving: people unknown or twice, aircraft that take nothing."""

from __future__ import annotations

from collections.abc import Iterator

from solver.errors import ProblemFault
from solver.problem.fault_checks.wording import Path, below, duplicate_ids, unknown_id
from solver.problem.flights import FlightDirection
from solver.problem.problem import Problem


def flight_faults(problem: Problem) -> Iterator[ProblemFault]:
    """Flights that stand twice, take nothing, or name people who are unknown or fly twice."""
    ids = [flight.flight_id for flight in problem.flights]
    yield from duplicate_ids(("flights",), "flight_id", ids, "flight")
    people = [person.person_id for person in problem.roster]
    flown: dict[tuple[FlightDirection, str], str] = {}
    for index, flight in enumerate(problem.flights):
        where: Path = ("flights", index)
        yield from below((*where, "payload_g"), flight.payload_g, 1, "A payload", "g")
        yield from below((*where, "seats"), flight.seats, 0, "The seats", "")
        if flight.volume_ml is not None:
            yield from below((*where, "volume_ml"), flight.volume_ml, 0, "The room", "mL")
        if flight.longest_mm is not None:
            yield from below((*where, "longest_mm"), flight.longest_mm, 1, "A length", "mm")
        for number, person in enumerate(flight.person_ids or ()):
            here: Path = (*where, "person_ids", number)
            if person not in people:
                yield unknown_id(here, person, "person", people)
                continue
            before = flown.setdefault((flight.direction, person), flight.flight_id)
            if before != flight.flight_id or person in (flight.person_ids or ())[:number]:
                yield ProblemFault(
                    here,
                    "flies_twice",
                    f"{person} is on flight {before} in the same direction already. Name each "
                    "person on one fly-in and one fly-out.",
                )


def evacuation_faults(problem: Problem) -> Iterator[ProblemFault]:
    """Wishes about people who are unknown, on days that the trip does not have, or made twice."""
    people = [person.person_id for person in problem.roster]
    last_day = len(problem.calendar.days)
    for index, wish in enumerate(problem.evacuations):
        where: Path = ("evacuations", index)
        if wish.person_id not in people:
            yield unknown_id((*where, "person_id"), wish.person_id, "person", people)
        if wish.day is not None and not 1 <= wish.day <= last_day:
            yield ProblemFault(
                (*where, "day"),
                "no_such_day",
                f"The expedition has days 1 to {last_day}. Name one of them, or leave out the day "
                "for every day.",
            )
        if wish in problem.evacuations[:index]:
            yield ProblemFault(
                where, "duplicate_id", f"This stands twice for {wish.person_id}. Leave one out."
            )
