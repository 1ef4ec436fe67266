"""What a plan puts on its flights."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

from solver.checker.ledger.facts import Facts, Weight
from solver.checker.ledger.once import once
from solver.checker.ledger.replay import AS_MANY_AS_NEEDED, Replay
from solver.checker.ledger.times import START, end_of
from solver.plan import FlightLoad
from solver.problem import Flight, FlightDirection, Person, Problem


@dataclass(frozen=True, slots=True)
class FlownFlight:
    """One flight as the plan has it: known people and units only, each with its count."""

    flight: Flight
    people: tuple[Person, ...]
    counts: Mapping[str, int]


@dataclass(frozen=True, slots=True)
class Side:
    """All flights of one direction in order.

    `counts` are the units to be flown, `weights` what one of each weighs and takes [g, mL];
    `is_planned` is whether the plan has anything on any of the flights.
    """

    facts: Facts
    direction: FlightDirection
    counts: Mapping[str, int]
    weights: Mapping[str, Weight]
    flights: tuple[FlownFlight, ...]

    @property
    def is_planned(self) -> bool:
        """Whether the plan puts anybody or anything on a flight of this direction."""
        return any(flown.people or flown.counts for flown in self.flights)

    def decided(self, unit_id: str) -> bool:
        """Whether it is known how many of a unit are to be flown."""
        return self.counts.get(unit_id, 0) < AS_MANY_AS_NEEDED // 2

    def mass_g(self, flown: FlownFlight) -> int:
        """People and cargo on a flight together [g]."""
        people_g = (flying_mass_g(self.facts.problem, p, self.direction) for p in flown.people)
        cargo_g = (count * self.weights[unit][0] for unit, count in flown.counts.items())
        return sum(people_g) + sum(cargo_g)

    def volume_ml(self, flown: FlownFlight) -> int:
        """The room that a flight's cargo takes [mL]."""
        return sum(count * self.weights[unit][1] for unit, count in flown.counts.items())


def flying_mass_g(problem: Problem, person: Person, direction: FlightDirection) -> int:
    """Somebody's mass in an aircraft, with the first lunch on the way in [g].

    Of a person whose mass is not known at all it is that of the lunch: such a request is
    refused before it comes to flights.
    """
    lunch_g = person.first_lunch_g if direction is FlightDirection.FLY_IN else 0
    if person.flying_mass_g is not None:
        return person.flying_mass_g + lunch_g
    if person.body_mass_g is None:
        return lunch_g
    return person.body_mass_g + round(1000 * problem.rules.number("worn_flying_kg")) + lunch_g


def flights_of(problem: Problem, direction: FlightDirection) -> tuple[Flight, ...]:
    """The flights of one direction in their order."""
    return tuple(flight for flight in problem.flights if flight.direction is direction)


@once
def sides(replay: Replay) -> tuple[Side, ...]:
    """The directions in which the problem has flights, as the plan flies them."""
    problem = replay.facts.problem
    return tuple(_side(replay, way) for way in FlightDirection if flights_of(problem, way))


def _side(replay: Replay, direction: FlightDirection) -> Side:
    facts, problem = replay.facts, replay.facts.problem
    inbound = direction is FlightDirection.FLY_IN
    time = START if inbound else end_of(facts.timeline)
    counts = {
        unit_id: count
        for unit_id, course in replay.courses.items()
        if (count := course.at(time).get(problem.start_place, 0)) > 0
    }
    weights = dict(facts.weights(0 if inbound else len(problem.calendar.days) - 1))
    for unit_id, unit in facts.units.items():
        if unit.item is not None:
            weights[unit_id] = unit.mass_g, unit.item.volume_ml
    for sled in problem.sleds:
        weights[f"sled/{sled.sled_id}"] = sled.tare_g, 0
        if inbound or _rests_at(facts, sled.sled_id) == problem.start_place:
            counts[f"sled/{sled.sled_id}"] = 1
    flights = tuple(
        _flown(problem, flight, replay.plan.flights, weights)
        for flight in flights_of(problem, direction)
    )
    return Side(facts, direction, counts, weights, flights)


def _flown(
    problem: Problem,
    flight: Flight,
    loads: tuple[FlightLoad, ...],
    weights: Mapping[str, Weight],
) -> FlownFlight:
    """What a plan puts on a flight; of several loads for one flight all are on it."""
    counts: Counter[str] = Counter()
    aboard: list[str] = []
    for load in loads:
        if load.flight_id == flight.flight_id:
            aboard += load.person_ids
            for stowed in load.units:
                if stowed.unit_id in weights and stowed.count > 0:
                    counts[stowed.unit_id] += stowed.count
    people = tuple(person for person in problem.roster if person.person_id in aboard)
    return FlownFlight(flight, people, counts)


def _rests_at(facts: Facts, sled_id: str) -> str:
    """Where a sled is left when all is over."""
    hauls = [trip.to_place for trip in facts.timeline.trips if sled_id in trip.sled_ids]
    return hauls[-1] if hauls else facts.problem.start_place
