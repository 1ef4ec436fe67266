"""A plan of a stored answer, read back as the solver had it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from solver.plan import FlightLoad, Load, NightStock, Plan, Stowed, TripLoads

_Document = Mapping[str, Any]


def read_stored_plan(document: _Document) -> Plan:
    """The plan of an answer that this service wrote; kilograms and litres are whole g and mL."""
    places: dict[tuple[int, str], tuple[Stowed, ...]] = {
        (entry["day"], entry["place"]): _units(entry["units"]) for entry in document["stock"]
    }
    return Plan(
        trips=tuple(
            TripLoads(
                trip["day"],
                trip["step"],
                trip["from"],
                trip["to"],
                tuple(_load(load) for load in trip["loads"]),
            )
            for trip in document["trips"]
        ),
        stock=tuple(NightStock(day, place, units) for (day, place), units in places.items()),
        flights=tuple(
            FlightLoad(
                flight["flight_id"],
                tuple(flyer["person_id"] for flyer in flight["people"]),
                _units(flight["units"]),
            )
            for flight in document["flights"]
        ),
    )


def _load(load: _Document) -> Load:
    return Load(
        person_id=load["person_id"],
        water_g=_thousandths(load["water_kg"]),
        lunch_g=_thousandths(load["lunch_kg"]),
        pack=_units(load["pack"]),
        sled_id=load["sled_id"],
        sled=_units(load["sled"]),
    )


def _units(units: Sequence[_Document]) -> tuple[Stowed, ...]:
    return tuple(
        Stowed(
            unit["unit_id"],
            unit["count"],
            _thousandths(unit["each_kg"]),
            _thousandths(unit["each_l"]),
        )
        for unit in units
    )


def _thousandths(amount: float) -> int:
    return round(amount * 1000)
