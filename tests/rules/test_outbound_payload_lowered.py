"""Outbound payload lowered: a flight out at nine tenths of its payload, and a gram more."""

from dataclasses import replace

import pytest

from tests.rules.flying import day_plan, flight_in, flyer, flying_world, out, thing
from tests.rules.worlds import Case, remarked

RULE = "outbound_payload_lowered"
CRATE = replace(thing("crate"), mass_g=20_000)


def _case(name, flight, over, person=None, **numbers) -> Case:
    problem = flying_world(
        (flight,),
        "flight_payload_held",
        people=(person or flyer(mass_g=70_000),),
        gear=(CRATE,),
        numbers=numbers,
    )
    plan = day_plan(problem, {flight.flight_id: "m1 | crate"})
    return Case(name, problem, plan, ((RULE, over),) if over else ())


HEAVIER = flyer(mass_g=70_001)

CASES = (
    _case("nine tenths", out(flight_in(payload_g=100_000)), 0),
    _case("a gram more", out(flight_in(payload_g=100_000)), 1, HEAVIER),
    _case("the lowered payload rounds down", out(flight_in(payload_g=99_999)), 1),
    _case("as much on the way in", flight_in(payload_g=90_001), 0, HEAVIER),
    _case("all of it", out(flight_in(payload_g=90_000)), 0, outbound_payload_percent=100),
    _case("by four fifths", out(flight_in(payload_g=100_000)), 10_000, outbound_payload_percent=80),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_heavy_flight_out_is_told(case):
    """A flight out above the lowered payload is no plan's end, but told with the grams."""
    assert remarked(case.problem, case.plan, RULE) == case.finds
