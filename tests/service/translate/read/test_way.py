"""Route, legs and flights of a request, each reader by itself."""

import pytest

from api_schema.flights import FlightRequest
from api_schema.route import LegRequest, RouteRequest
from service.translate.read.flights import read_flights
from service.translate.read.legs import read_leg
from service.translate.read.notes import Notes
from service.translate.read.route import read_route
from solver.problem import FlightDirection, Hazard, LegMode, PlaceKind

LEG = {"from": "road", "to": "camp", "mode": "sled"}
FLIGHT = {"flight_id": "in-1", "direction": "fly_in", "payload": "350 kg", "seats": 3}


def leg(**facts) -> LegRequest:
    """A sled leg with what else is given."""
    return LegRequest.model_validate(LEG | facts)


def test_a_leg_is_read_with_what_is_known_of_it():
    """Lengths round to the nearest metre, hours and hazard are as given."""
    wire = leg(distance="9.0004 km", ascent="600 m", crevasse_hazard="low", hours_outbound="90 min")
    read = read_leg(wire, 0, "leg-1", Notes())
    assert (read.leg_id, read.mode, read.distance_m, read.ascent_m) == (
        "leg-1",
        LegMode.SLED,
        9_000,
        600,
    )
    assert (read.crevasse_hazard, read.hours_outbound, read.hours_homeward) == (
        Hazard.LOW,
        1.5,
        None,
    )


@pytest.mark.parametrize(
    ("facts", "factors"),
    [
        ({}, (85, 85)),
        ({"steepest_angle": "20 deg"}, (65, 65)),
        ({"sled_factor_outbound": "70 %"}, (70, 70)),
        ({"sled_factor_outbound": "70 %", "sled_factor_homeward": "90 %"}, (70, 90)),
    ],
)
def test_the_share_of_the_sleds_limits_is_given_or_goes_by_the_slope(facts, factors):
    """Down is as up where it is not given; each default is told."""
    notes = Notes()
    read = read_leg(leg(**facts), 0, "leg-1", notes)
    assert (read.sled_factor_outbound_percent, read.sled_factor_homeward_percent) == factors
    given = sum(name.startswith("sled_factor") for name in facts)
    assert len(notes.assumptions) == 2 - given


def test_a_slope_over_the_vertical_is_a_fault():
    """An angle over 90 degrees is refused at its address."""
    notes = Notes()
    read_leg(leg(steepest_angle="91 deg"), 2, "leg-1", notes)
    assert [f.pointer for f in notes.faults] == ["/route/legs/2/steepest_angle"]


def test_legs_without_an_id_get_the_free_ones():
    """Names that the request uses itself are left out."""
    wire = RouteRequest.model_validate(
        {
            "places": [
                {"place_id": "road", "elevation": "1000 m"},
                {"place_id": "camp", "elevation": "1500.4 m"},
                {"place_id": "high", "elevation": "2 km"},
            ],
            "legs": [LEG, LEG | {"from": "camp", "to": "high", "leg_id": "leg-1"}],
        }
    )
    notes = Notes()
    route = read_route(wire, "road", notes)
    assert [found.leg_id for found in route.legs] == ["leg-2", "leg-1"]
    assert [place.elevation_m for place in route.places] == [1_000, 1_500, 2_000]
    assert route.places[0].kind is PlaceKind.ROAD_HEAD
    assert notes.pointer_of(("route", "legs", 1, "from_place")) == "/route/legs/1/from"


def test_what_an_aircraft_takes_rounds_down():
    """Half a gram more payload and half a millimetre more room are none."""
    wire = FlightRequest.model_validate(FLIGHT | {"payload": "350000.5 g", "longest": "2.0005 m"})
    (flight,) = read_flights([wire], Notes())
    assert (flight.payload_g, flight.longest_mm, flight.volume_ml) == (350_000, 2_000, None)
    assert (flight.direction, flight.person_ids) == (FlightDirection.FLY_IN, None)
