"""Everything flies once: each person and unit is on exactly one flight of each direction.

For each direction with flights: flights with a person aboard = 1; units aboard all flights =
units at the start place before day 1 (in) or at the end (out). What no unit can be, flights
listed twice or of no request, and claims of mass and volume that are not true are found here too.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping

from solver.checker.ledger.facts import Weight
from solver.checker.ledger.replay import Replay
from solver.checker.queries.flights import Side, sides
from solver.checker.queries.telling import Where
from solver.plan import Finding, FlightLoad, Stowed
from solver.problem import FlightDirection

RULE = "everything_flies_once"


def everything_flies_once(replay: Replay) -> Iterator[Finding]:
    """People and units that fly never or more than once, and what cannot fly at all."""
    problem = replay.facts.problem
    known = {flight.flight_id: flight.direction for flight in problem.flights}
    planned = Counter(load.flight_id for load in replay.plan.flights)
    for flight_id, times in planned.items():
        if flight_id not in known:
            yield _finding(f"the request has no flight {flight_id}", 1, "flights", flight_id)
        elif times > 1:
            yield _finding(f"flight {flight_id} is in the plan {times} times", times - 1, "flights")
    for side in sides(replay):
        way = "in" if side.direction is FlightDirection.FLY_IN else "out"
        loads = [f for f in replay.plan.flights if known.get(f.flight_id) is side.direction]
        if not loads:
            units = sum(n for unit, n in side.counts.items() if side.decided(unit))
            missing = len(problem.roster) + units
            words = f"the plan has no flight {way}: {missing} people and units do not fly"
            yield _finding(words, missing, "units")
            continue
        yield from _people(side, loads, way)
        yield from _units(side, loads, way)


def _people(side: Side, loads: list[FlightLoad], way: str) -> Iterator[Finding]:
    aboard = Counter(person_id for load in loads for person_id in load.person_ids)
    known = [person.person_id for person in side.facts.problem.roster]
    for person_id in [*known, *sorted(aboard.keys() - set(known))]:
        times, right = aboard[person_id], int(person_id in known)
        if times == right:
            continue
        words = f"{person_id} is on {times} flights {way}, not on one"
        if not right:
            words = f"{person_id} on a flight {way}: nobody of that id is on this trip"
        yield _finding(words, abs(times - right), "people", where=(("person", person_id),))


def _units(side: Side, loads: list[FlightLoad], way: str) -> Iterator[Finding]:
    flown: Counter[str] = Counter()
    for load in loads:
        for stowed in load.units:
            yield from _claims(stowed, load.flight_id, side.weights)
            flown[stowed.unit_id] += max(stowed.count, 0)
    for unit_id in sorted(side.counts.keys() | (flown.keys() & side.weights.keys())):
        there, aboard = side.counts.get(unit_id, 0), flown[unit_id]
        if there == aboard or not side.decided(unit_id):
            continue
        words = f"{unit_id}: {there} to be flown {way}, {aboard} aboard, "
        words += f"{there - aboard} left" if there > aboard else f"{aboard - there} too many"
        yield _finding(words, abs(there - aboard), "units", where=(("unit", unit_id),))


def _claims(stowed: Stowed, flight_id: str, weights: Mapping[str, Weight]) -> Iterator[Finding]:
    at = f"{stowed.unit_id} on flight {flight_id}"
    where: Where = (("unit", stowed.unit_id),)
    weight = weights.get(stowed.unit_id)
    if weight is None:
        words = f"{at}: nothing of that name flies then"
        yield _finding(words, max(abs(stowed.count), 1), "units", flight_id, where)
    elif stowed.count < 1:
        words = f"{at}: {stowed.count} of them cannot be"
        yield _finding(words, max(abs(stowed.count), 1), "units", flight_id, where)
    else:
        for word, unit, claimed, true in (
            ("mass", "g", stowed.mass_g, weight[0]),
            ("volume", "mL", stowed.volume_ml, weight[1]),
        ):
            if claimed != true:
                words = f"{word} of {at}: the plan says {claimed} {unit}, it is {true} {unit}"
                yield _finding(words, abs(claimed - true), unit, flight_id, where)


def _finding(
    words: str, amount: int, unit: str, flight_id: str | None = None, where: Where = ()
) -> Finding:
    flight: Where = () if flight_id is None else (("flight", flight_id),)
    return Finding(RULE, words, amount, unit, (*flight, *where))
