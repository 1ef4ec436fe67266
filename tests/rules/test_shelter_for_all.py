"""Shelter for all: room for all, for all but one, and for people at two camps."""

from functools import partial

import pytest

from solver.problem import Item, Need, NeedKind, Problem, Purpose
from tests.rules.calendar_worlds import hard_case, told
from tests.rules.party_worlds import THREE, in_two_kitchens, team, thing
from tests.rules.worlds import EVERY_NIGHT, RequestCase, request_found, world

RULE = "shelter_for_all"
_case = partial(hard_case, RULE)
FOUR = (*team("r1", "m1", "m2"), *team("r2", "m3", "m4"))
SPLIT = "strip-c1 c1|c1-strip c1-strip|strip"
AT_C1 = Need(NeedKind.AT_PLACE, up_to="c1")


def _tent(places: int, need: Need = EVERY_NIGHT, **changes) -> Item:
    return thing(Purpose.SHELTER, need, shelter_places=places, **changes)


def _world(*gear: Item, days: str = "strip-c1 c1-strip", people=THREE) -> Problem:
    problem = world(days, people=people, gear=gear)
    return in_two_kitchens(problem) if days == SPLIT else problem


CASES = (
    _case("as many places as people", _world(_tent(3))),
    _case("one place too few", _world(_tent(2)), 1),
    _case("two smaller ones", _world(_tent(2, count=2))),
    _case("no shelter", _world(), 3),
    _case("places not told", _world(_tent(0)), 3),
    _case("it stands at the camp", _world(_tent(3, AT_C1))),
    _case("it stands lower", _world(_tent(3, AT_C1), days="strip-c1-c2 c2-c1-strip"), 3),
    _case(
        "two camps, one rope team has none",
        _world(_tent(2, item_id="t1", rope_team_id="r1"), days=SPLIT, people=FOUR),
        2,
        2,
    ),
    _case(
        "two camps, the rope teams' own",
        _world(
            _tent(2, item_id="t1", rope_team_id="r1"),
            _tent(2, item_id="t2", rope_team_id="r2"),
            days=SPLIT,
            people=FOUR,
        ),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_place_under_cover_for_each(case: RequestCase) -> None:
    """Each night the shelters that are where people sleep have a place for each of them."""
    assert request_found(case.problem, RULE) == case.finds


def test_nights_and_place_are_named() -> None:
    """The words name nights and place, how many places there are, and for how many."""
    (finding,) = told(CASES[1].problem, RULE)
    assert finding.message == "night of day 1 at c1: 2 shelter places for 3 people"
    assert finding.instead[0].startswith("shelters with 1 place more")
