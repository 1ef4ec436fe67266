"""Stoves enough: one, two and three stoves for one and two cook groups."""

from functools import partial

import pytest

from solver.problem import CookGroup, Problem, Purpose
from tests.rules.calendar_worlds import hard_case, numbered, told
from tests.rules.party_worlds import MEALS_OF_TWO, team, thing
from tests.rules.worlds import RequestCase, request_found, world

RULE = "stoves_enough"
_case = partial(hard_case, RULE)


def _world(stoves: int) -> Problem:
    return world(gear=(thing(Purpose.STOVE, count=stoves),) if stoves else ())


def _two_kitchens(stoves: int) -> Problem:
    at = tuple((place, "meal") for place in ("strip", "c1"))
    return world(
        people=(*team("r1", "m1"), *team("r1", "m2", cook_group_id="g2")),
        groups=(CookGroup("g1", at), CookGroup("g2", at)),
        night_sets=MEALS_OF_TWO,
        gear=(thing(Purpose.STOVE, count=stoves),),
    )


CASES = (
    _case("two", _world(2)),
    _case("one", _world(1), 1),
    _case("none", _world(0), 2),
    _case("three for two cook groups", _two_kitchens(3)),
    _case("two for two cook groups", _two_kitchens(2), 1),
    _case("no spare asked for", numbered(_world(1), spare_stoves=0)),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_stove_each_and_one_to_spare(case: RequestCase) -> None:
    """Stoves are one more than cook groups at least."""
    assert request_found(case.problem, RULE) == case.finds


def test_the_numbers_are_told() -> None:
    """The words say how many stoves there are and how many it takes."""
    (finding,) = told(CASES[4].problem, RULE)
    assert finding.message == ("2 stoves for 2 cook groups: 3 needed, one each and 1 to spare")
    assert finding.instead[0] == "1 stove more in the gear"
