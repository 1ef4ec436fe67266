"""Flights of a plan as the wire has them."""

from __future__ import annotations

from api_schema.flight_answer import FlightAnswer, FlyingPersonAnswer
from service.translate.write.choices import FLIGHT_DIRECTIONS
from service.translate.write.load_figures import share_of_cap
from service.translate.write.stowed import StowedWriter, volume_ml
from service.translate.write.units import kilograms, litres, share
from solver.checker.queries.flights import flying_mass_g
from solver.plan import FlightLoad
from solver.problem import Problem, Purpose


def write_flight(problem: Problem, told: FlightLoad, units: StowedWriter) -> FlightAnswer:
    """Who and what is on one flight."""
    flight = next(f for f in problem.flights if f.flight_id == told.flight_id)
    people = {
        person_id: flying_mass_g(problem, problem.person(person_id), flight.direction)
        for person_id in told.person_ids
    }
    people_g = sum(people.values())
    cargo_g = sum(stowed.count * stowed.mass_g for stowed in told.units)
    return FlightAnswer(
        flight_id=flight.flight_id,
        direction=FLIGHT_DIRECTIONS[flight.direction],
        people=[
            FlyingPersonAnswer(person_id=person_id, kg=kilograms(mass_g))
            for person_id, mass_g in people.items()
        ],
        seats=flight.seats,
        people_kg=kilograms(people_g),
        cargo_kg=kilograms(cargo_g),
        payload_kg=kilograms(flight.payload_g),
        load_fraction=share(share_of_cap(load_g=people_g + cargo_g, cap_g=flight.payload_g)),
        cargo_l=litres(volume_ml(told.units)),
        volume_l=None if flight.volume_ml is None else litres(flight.volume_ml),
        fuel_aboard=any(_holds_fuel(problem, stowed.unit_id) for stowed in told.units),
        units=units.all(told.units),
    )


def _holds_fuel(problem: Problem, unit_id: str) -> bool:
    """Whether a unit is a fuel container, full, opened or empty, or fuel in the gear."""
    if any(i.unit_id == unit_id and i.purpose is Purpose.FUEL for i in problem.gear):
        return True
    return any(
        unit_id == container.unit_id or unit_id.startswith(f"{container.unit_id}/")
        for group in problem.cook_groups
        for container in group.containers
    )
