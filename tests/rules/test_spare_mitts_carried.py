"""Spare mitts carried: a pair, two pairs and none with one and two rope teams."""

from functools import partial

import pytest

from solver.problem import Item, Problem, Purpose
from tests.rules.calendar_worlds import hard_case, numbered, told
from tests.rules.party_worlds import WORN, team, thing
from tests.rules.worlds import EVERY_NIGHT, EVERY_TRIP, RequestCase, request_found, world

RULE = "spare_mitts_carried"
_case = partial(hard_case, RULE)
ONE = team("r1", "m1", "m2")
TWO = (*ONE, *team("r2", "m3"))
TOLD = thing(Purpose.MITTS, WORN, owner_id="m1")


def _pairs(count: int, need=EVERY_TRIP, **changes) -> Item:
    return thing(Purpose.SPARE_MITTS, need, count=count, **changes)


def _world(*gear: Item, days: str = "strip-c1-strip", people=ONE) -> Problem:
    return world(days, people=people, gear=gear)


APART = "strip-c1-strip|strip-c1-strip"

CASES = (
    _case("a pair", _world(TOLD, _pairs(1))),
    _case("no pair", _world(TOLD), 1),
    _case("a pair of one of them", _world(TOLD, _pairs(1, owner_id="m2"))),
    _case("a pair in camp", _world(TOLD, _pairs(1, EVERY_NIGHT)), 1),
    _case("two pairs for two rope teams", _world(TOLD, _pairs(2), people=TWO)),
    _case("a pair for two rope teams", _world(TOLD, _pairs(1), people=TWO), 1),
    _case("apart, one has none", _world(TOLD, _pairs(1, owner_id="m3"), days=APART, people=TWO), 1),
    _case("no clothing told", _world()),
    _case("two each asked for", numbered(_world(TOLD, _pairs(1)), spare_mitts_pairs=2), 1),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_pair_for_each_rope_team(case: RequestCase) -> None:
    """On every trip a pair of spare mitts rides for each rope team on it."""
    assert request_found(case.problem, RULE) == case.finds


def test_trips_and_pairs_are_named() -> None:
    """The words name the trips, how many pairs there are and how many it takes."""
    (finding,) = told(CASES[5].problem, RULE)
    assert finding.message.startswith("1 pair of spare mitts with 2 rope teams on day 1, strip to")
    assert finding.instead == ("1 pair of spare mitts more that must ride every trip",)
