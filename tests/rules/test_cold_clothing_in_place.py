"""Cold clothing in place: a parka needed in the cold, in reach, ahead, behind and too late."""

from dataclasses import replace
from functools import partial

import pytest

from solver.problem import Need, NeedKind, Problem, Purpose
from tests.rules.calendar_worlds import hard_case, told
from tests.rules.party_worlds import WORN, cold, thing
from tests.rules.worlds import EVERY_NIGHT, EVERY_TRIP, RequestCase, request_found, world

RULE = "cold_clothing_in_place"
_case = partial(hard_case, RULE)
DAYS = "strip-c1 c1-c2-c1 c1-c2 c2-c1-strip"


def _world(
    need: Need,
    c2_c: float = -20.0,
    *,
    purpose: Purpose = Purpose.COLD_CLOTHING,
    days: str = DAYS,
    count: int = 1,
) -> Problem:
    """Something of m1 that is needed below -15 °C, with c2 as cold as told."""
    parka = thing(purpose, need, owner_id="m1", item_id="parka", count=count)
    gear = (replace(parka, needed_below_c=-15.0),)
    return cold(world(days, gear=gear), strip=-5.0, c1=-10.0, c2=c2_c)


def _from(place: str, **changes) -> Need:
    return Need(NeedKind.EVERY_TRIP, from_place=place, **changes)


BAG = Purpose.SLEEPING_BAG

CASES = (
    _case("always there", _world(EVERY_TRIP)),
    _case("worn", _world(WORN)),
    _case("from the camp before", _world(_from("c1"))),
    _case("sent ahead to the camp before", _world(_from("c1", may_go_ahead=True))),
    _case("from the cold camp, with the way there", _world(_from("c2"))),
    _case("sent ahead to the cold camp", _world(_from("c2", may_go_ahead=True)), 1),
    _case("by night only", _world(EVERY_NIGHT), 1),
    _case("it stands at the cold camp", _world(Need(NeedKind.AT_PLACE, up_to="c2")), 1),
    _case("left behind", _world(Need(NeedKind.EVERY_TRIP, up_to="c1")), 1),
    _case("two left behind", _world(Need(NeedKind.EVERY_TRIP, up_to="c1"), count=2), 2),
    _case("exactly as cold as that", _world(_from("c2", may_go_ahead=True), -15.0)),
    _case("a hair colder", _world(_from("c2", may_go_ahead=True), -15.01), 1),
    _case("a carry alone", _world(EVERY_NIGHT, days="strip-c1 c1-c2-c1 c1-strip"), 1),
    _case("a warmer bag, by night", _world(EVERY_NIGHT, purpose=BAG)),
    _case(
        "a warmer bag, left behind", _world(Need(NeedKind.EVERY_NIGHT, up_to="c1"), purpose=BAG), 1
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_it_is_there_from_the_first_cold_trip_to_the_last(case: RequestCase) -> None:
    """What is needed in the cold is with its owner on every trip and night that is colder."""
    assert request_found(case.problem, RULE) == case.finds


def test_item_owner_and_first_time_are_named() -> None:
    """The words name the item, its owner, the temperature and the first trip without it."""
    (finding,) = told(CASES[5].problem, RULE)
    assert finding.message == (
        "parka is needed where it is colder than -15 °C, but need not be with m1 on day 2, c1 to "
        "c2 and 3 times more"
    )
    assert finding.instead


def test_a_camp_of_no_told_temperature_asks_nothing() -> None:
    """Where no night temperature is told, nothing can be said of what it asks."""
    problem = world(DAYS, gear=_world(EVERY_NIGHT).gear)
    assert told(hard_case(RULE, "", problem).problem, RULE) == []
