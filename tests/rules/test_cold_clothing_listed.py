"""Cold clothing listed: camps at the limit and a hair colder, with overboots and without."""

from functools import partial

import pytest

from solver.problem import Problem, Purpose
from tests.rules.calendar_worlds import hard_case, numbered, told
from tests.rules.party_worlds import WORN, cold, thing
from tests.rules.worlds import RequestCase, request_found, world

RULE = "cold_clothing_listed"
_case = partial(hard_case, RULE)


def _world(c1_c: float | None, *purposes: Purpose, days: str = "strip-c1 c1-strip") -> Problem:
    gear = tuple(thing(purpose, WORN, owner_id="m1") for purpose in purposes)
    problem = world(days, gear=gear)
    return problem if c1_c is None else cold(problem, c1=c1_c)


MITTS, WARM = Purpose.MITTS, Purpose.COLD_CLOTHING

CASES = (
    _case("at the limit", _world(-22.0, MITTS)),
    _case("a hair colder", _world(-22.01, MITTS), 1),
    _case("has overboots", _world(-30.0, MITTS, WARM)),
    _case("visited on a carry", _world(-30.0, MITTS, days="strip-c1-strip"), 1),
    _case("no clothing told", _world(-30.0)),
    _case("no temperature told", _world(None, MITTS)),
    _case("another limit", numbered(_world(-18.0, MITTS), overboots_below_c=-15.0), 1),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_overboots_where_it_is_very_cold(case: RequestCase) -> None:
    """Whoever goes where nights are colder than -22 °C has cold clothing listed."""
    assert request_found(case.problem, RULE) == case.finds


def test_person_place_and_temperatures_are_named() -> None:
    """The words name the person, the first such place, its temperature and the limit."""
    (finding,) = told(CASES[3].problem, RULE)
    assert finding.message == (
        "m1 goes to c1, where nights are at -30 °C, and has no cold clothing listed, which is "
        "needed below -22 °C"
    )
    assert finding.instead[0].startswith("overboots")
