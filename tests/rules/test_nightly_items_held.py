"""Nightly items held: items of every night and trip where their people sleep, and elsewhere."""

import pytest

from solver.checker import check
from solver.problem import Need, NeedKind, Problem
from tests.rules.worlds import EVERY_NIGHT, Case, found, item, person, plan_of, world

RULE = "nightly_items_held"
DAYS = "strip-c1 c1-c2 c2 c2-c1-strip"


def _world(need: Need, *, count: int = 1, owner_id: str | None = None) -> Problem:
    """One night at c1, two at c2, and an item of some need."""
    return world(DAYS, gear=(item("tent", need, count=count, owner_id=owner_id),))


def _case(name: str, problem: Problem, *loads: str, finds=()) -> Case:
    """The item goes with the trips whose entry names it; food goes with the first two."""
    food = ("g1/meal*3", "g1/meal*2", "", "")
    trips = ({"m1": f"{a} {b}"} for a, b in zip(loads, food, strict=True))
    return Case(name, problem, plan_of(problem, *trips), finds)


TENT = _world(EVERY_NIGHT)
TWO = _world(EVERY_NIGHT, count=2)
AHEAD = _world(Need(NeedKind.EVERY_NIGHT, from_place="c2", may_go_ahead=True))
ALONG = _world(Need(NeedKind.EVERY_NIGHT, from_place="c2"))
UP_TO = _world(Need(NeedKind.EVERY_NIGHT, up_to="c1"))

CASES = (
    _case("with them", TENT, *["tent"] * 4),
    _case("left at the start", TENT, *[""] * 4, finds=((RULE, 1), (RULE, 1))),
    _case("one of two left below", TWO, "tent*2", "tent", "tent", "tent*2", finds=((RULE, 1),)),
    _case("free before its first place", AHEAD, *["tent"] * 4),
    _case("not free after it", AHEAD, *[""] * 4, finds=((RULE, 1),)),
    _case("must go along before its first place", ALONG, *["tent"] * 4),
    _case("waits at its last place", UP_TO, "tent", "", "", "tent"),
    _case(
        "taken beyond its last place",
        UP_TO,
        *["tent"] * 4,
        finds=((RULE, 1), ("goes_no_further", 1)),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_what_is_needed_every_night_is_where_its_people_sleep(case):
    """An item is at its people's place each night, or at its last place while they are beyond."""
    assert found(case.problem, case.plan) == case.finds


def test_an_item_that_may_go_ahead_can_be_anywhere_before_its_place():
    """Carried up on day 1 and left at c1 or not, it may be anywhere until somebody is at c2."""
    carry = "strip-c1-c2-c1 c1-c2 c2-c1-strip"
    free = Need(NeedKind.EVERY_NIGHT, from_place="c2", may_go_ahead=True)
    bound = Need(NeedKind.EVERY_NIGHT, from_place="c2")
    trips = [
        {"m1": "tent g1/meal*2"},
        {"m1": "tent"},
        {},
        {"m1": "g1/meal"},
        {"m1": "tent"},
        {"m1": "tent"},
    ]
    ahead, along = (world(carry, gear=(item("tent", need),)) for need in (free, bound))
    assert found(ahead, plan_of(ahead, *trips)) == ()
    assert found(along, plan_of(along, *trips)) == ((RULE, 1),)


def test_a_missing_item_is_told_once_for_a_run_of_nights():
    """Two nights at c2 without the tent are one finding that names both days."""
    finding = check(TWO, CASES[2].plan).findings[0]
    assert finding.message == (
        "tent on the nights of days 2 to 3 at c2: 2 needed, 1 there, 1 too few"
    )


def test_an_item_of_every_trip_is_asked_for_at_night_too():
    """A rope left out on the way up is missed on the trip and on the night."""
    problem = world(
        "strip-c1 c1-strip", people=(person(),), gear=(item("rope", Need(NeedKind.EVERY_TRIP)),)
    )
    plan = plan_of(problem, {"m1": "g1/meal"}, {})
    assert found(problem, plan) == (
        (RULE, 1),
        ("party_kit_carried", 1),
        ("party_kit_carried", 1),
    )
