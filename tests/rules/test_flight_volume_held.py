"""Flight volume held: cargo that just goes in, and a millilitre more."""

from dataclasses import replace

import pytest

from tests.rules.flying import day_plan, flight_in, flying_world, out, thing, told
from tests.rules.worlds import Case

RULE = "flight_volume_held"
CRATE = replace(thing("crate"), volume_ml=3_000)
POLES = replace(thing("poles"), outside=True)


def _case(name, flight, over) -> Case:
    problem = flying_world((flight,), RULE, gear=(CRATE, POLES))
    plan = day_plan(problem, {flight.flight_id: "m1 | crate poles"})
    return Case(name, problem, plan, ((RULE, over),) if over else (), not over)


CASES = (
    _case("goes in", flight_in(volume_ml=4_000), 0),
    _case("a millilitre too much", flight_in(volume_ml=3_999), 1),
    _case("what rides outside packs takes room", flight_in(volume_ml=3_000), 1_000),
    _case("out, goes in", out(flight_in(volume_ml=4_000)), 0),
    _case("out, a millilitre too much", out(flight_in(volume_ml=3_999)), 1),
    _case("no volume told", flight_in(), 0),
    _case("no cargo goes in", flight_in(volume_ml=0), 4_000),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_cargo_goes_into_the_aircraft(case):
    """Cargo, what rides outside packs included, takes at most a flight's volume."""
    assert told(case, RULE) == case.finds
