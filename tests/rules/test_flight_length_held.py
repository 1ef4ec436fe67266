"""Flight length held: the longest thing that goes in, and one a millimetre longer."""

from dataclasses import replace

import pytest

from tests.rules.flying import day_plan, flight_in, flying_world, out, thing, told
from tests.rules.worlds import Case

RULE = "flight_length_held"


def _case(name, flight, over, length_mm: int | None = 1_700) -> Case:
    poles = replace(thing("poles"), length_mm=length_mm)
    problem = flying_world((flight,), RULE, gear=(poles, replace(thing("pad"), length_mm=100)))
    plan = day_plan(problem, {flight.flight_id: "m1 | poles pad"})
    return Case(name, problem, plan, ((RULE, over),) if over else (), not over)


SHORT, LONG = flight_in(longest_mm=1_699), flight_in("in-2", longest_mm=1_700)
TWO = flying_world((SHORT, LONG), RULE, gear=(replace(thing("poles"), length_mm=1_700),))

CASES = (
    _case("just goes in", flight_in(longest_mm=1_700), 0),
    _case("a millimetre too long", flight_in(longest_mm=1_699), 1),
    _case("out, a millimetre too long", out(flight_in(longest_mm=1_699)), 1),
    _case("no longest thing told", flight_in(), 0),
    _case("no length told", flight_in(longest_mm=100), 0, length_mm=None),
    Case("on the longer one", TWO, day_plan(TWO, {"in-1": "", "in-2": "m1 | poles"})),
    Case("on the shorter", TWO, day_plan(TWO, {"in-1": "m1 | poles", "in-2": ""}), ((RULE, 1),)),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_nothing_longer_than_the_aircraft_takes_is_aboard(case):
    """A thing flies only where its length, if it is known, goes in."""
    assert told(case, RULE) == case.finds
