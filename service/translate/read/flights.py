"""Flights and evacuations of a request, read onto the grid: what an aircraft takes rounds down."""

from __future__ import annotations

from collections.abc import Sequence

from api_schema.flights import EvacuationRequest, FlightRequest
from service.translate.read import quantities
from service.translate.read.notes import Notes, pointer_to
from solver.problem import Evacuation, Flight, FlightDirection

LARGEST_PAYLOAD_G = 20_000_000
LARGEST_HOLD_ML = 100_000_000
LONGEST_THING_MM = 30_000


def read_flights(flights: Sequence[FlightRequest], notes: Notes) -> tuple[Flight, ...]:
    """All flights, in the order of the request."""
    notes.point(("flights",), "/flights")
    return tuple(_read_flight(flight, index, notes) for index, flight in enumerate(flights))


def _read_flight(flight: FlightRequest, index: int, notes: Notes) -> Flight:
    pointer = pointer_to("flights", index)
    notes.point(("flights", index), pointer)
    for number in range(len(flight.people or ())):
        notes.point(("flights", index, "person_ids", number), f"{pointer}/people/{number}")
    volume_ml = None
    if flight.volume is not None:
        volume_ml = notes.within(
            quantities.whole_down(flight.volume),
            f"{pointer}/volume",
            least=0,
            most=LARGEST_HOLD_ML,
            unit="mL",
        )
    longest_mm = None
    if flight.longest is not None:
        longest_mm = notes.within(
            quantities.millimetres_down(flight.longest),
            f"{pointer}/longest",
            least=0,
            most=LONGEST_THING_MM,
            unit="mm",
        )
    return Flight(
        flight_id=flight.flight_id,
        direction=FlightDirection(flight.direction),
        payload_g=notes.within(
            quantities.whole_down(flight.payload),
            f"{pointer}/payload",
            least=0,
            most=LARGEST_PAYLOAD_G,
            unit="g",
        ),
        seats=flight.seats,
        volume_ml=volume_ml,
        longest_mm=longest_mm,
        person_ids=None if flight.people is None else tuple(flight.people),
        fuel_with_people=flight.fuel_with_people,
        loaded_by_operator=flight.loaded_by_operator,
    )


def read_evacuations(
    evacuations: Sequence[EvacuationRequest], notes: Notes
) -> tuple[Evacuation, ...]:
    """Who may have to go down early, and on which day."""
    notes.point(("evacuations",), "/evacuations")
    for index in range(len(evacuations)):
        pointer = pointer_to("evacuations", index)
        notes.point(("evacuations", index), pointer)
        notes.point(("evacuations", index, "person_id"), f"{pointer}/person")
    return tuple(Evacuation(wish.person, wish.day) for wish in evacuations)
