"""Food stands frost: what freezing spoils is kept where it is warm enough."""

from dataclasses import replace
from functools import partial

import pytest

from solver.problem import Need, NeedKind, Problem
from tests.rules.food_worlds import fed, hard, held, told, with_nights
from tests.rules.worlds import EVERY_NIGHT, RequestCase, item, request_found

RULE = "food_stands_frost"
_case = partial(hard, RULE)


def _with_item(need: Need) -> Problem:
    tube = replace(item("cream", need), spoils_below_c=-5.0)
    return replace(fed(), gear=(tube,))


CASES = (
    _case("not told of the set", with_nights(fed(), c1=-30.0)),
    _case("not told of the night", fed(spoils_below_c=-5.0)),
    _case("at", with_nights(fed(spoils_below_c=-5.0), c1=-5.0)),
    _case("a hair colder", with_nights(fed(spoils_below_c=-5.0), c1=-5.01), 1),
    _case("two degrees and a bit colder", with_nights(fed(spoils_below_c=-5.0), c1=-7.5), 3),
    _case("cold where nobody eats it", with_nights(fed(spoils_below_c=-5.0), strip=-20.0)),
    _case("reserve", with_nights(held(fed(), spoils_below_c=-5.0), c1=-7.0), 2),
    _case("item of every night", with_nights(_with_item(EVERY_NIGHT), c1=-10.0), 5),
    _case(
        "item at its place",
        with_nights(_with_item(Need(NeedKind.AT_PLACE, up_to="c1")), c1=-10.0),
        5,
    ),
    _case(
        "item at a place passed by",
        with_nights(_with_item(Need(NeedKind.AT_PLACE, up_to="strip")), c1=-10.0),
    ),
    _case("worn item", with_nights(_with_item(Need(NeedKind.WORN)), c1=-10.0)),
    _case("item at", with_nights(_with_item(EVERY_NIGHT), c1=-5.0)),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_frost_spoils_nothing(case: RequestCase) -> None:
    """Sets and things are told at each place colder than they stand, in whole degrees."""
    assert request_found(case.problem, RULE) == case.finds


def test_set_place_and_temperatures_are_named() -> None:
    """The words tell set, place, limit and night."""
    (finding,) = told(CASES[4].problem, RULE)
    assert "night set meal of cook group g1 at c1 spoils or bursts below -5 degC" in finding.message
    assert "-7.5 degC" in finding.message
    assert finding.instead
