"""Reserves held: food and fuel of storm, descent and base reserves, whole and short."""

from dataclasses import replace

import pytest

from solver.checker import check
from solver.problem import (
    Container,
    CookGroup,
    NightSet,
    Problem,
    Reserve,
    ReserveKind,
    RuleSettings,
)
from tests.rules.guest_worlds import guest_of
from tests.rules.worlds import Case, found, person, plan_of, world

RULE = "reserves_held"
PLACES = ("strip", "c1", "c2")
CAN = Container("can", "g1", content_ml=100, tare_g=30, volume_ml=200)


def _world(days: str, *reserves: Reserve, fuel_ml: int = 0, margin: int = 0) -> Problem:
    """Two people with bags of one set, and a reserve that may ask for fuel in cans of 100 mL.

    What is eaten every night is cooked with nothing, so that all fuel is reserve.
    """
    sets = (
        NightSet("meal", "g1", 100, 0, 0, 0, 0),
        NightSet("storm", "g1", 90, 0, 0, 0, fuel_ml, sets_per_bag=1, storm=True),
    )
    return world(
        days,
        people=(person("m1"), person("m2")),
        groups=(CookGroup("g1", tuple((p, "meal") for p in PLACES if p in days), (CAN,)),),
        night_sets=sets,
        reserves=reserves,
        fuel_margin_percent=margin,
        rules=RuleSettings(switched_off=frozenset({"fuel_spread"})),
    )


def _reserve(kind: ReserveKind, place: str, nights: int = 1, set_id: str = "meal") -> Reserve:
    return Reserve(place, "g1", kind, nights, set_id)


def _case(name: str, problem: Problem, *trips: str, finds: tuple[int, ...] = ()) -> Case:
    plan = plan_of(problem, *({"m1": units} for units in trips))
    return Case(name, problem, plan, tuple((RULE, n) for n in finds))


STORM = _world("strip-c1 c1 c1-strip", _reserve(ReserveKind.STORM, "c1", nights=2))
TWICE = _world("strip-c1 c1 c1-strip", *[_reserve(ReserveKind.STORM, "c1")] * 2)
DESCENT = _world("strip-c1 c1-c2 c2 c2-c1-strip", _reserve(ReserveKind.DESCENT, "c1"))
FUEL_AT = _world("strip-c1 c1-strip", _reserve(ReserveKind.STORM, "c1", 1, "storm"), fuel_ml=50)
FUEL_ABOVE = _world(
    "strip-c1 c1-strip", _reserve(ReserveKind.STORM, "c1", 1, "storm"), fuel_ml=46, margin=10
)

GUESTS = guest_of(
    replace(
        FUEL_AT,
        roster=(*FUEL_AT.roster, person("m3", cook_group_id="g2")),
        cook_groups=(
            *FUEL_AT.cook_groups,
            CookGroup("g2", tuple((p, "meal") for p in ("strip", "c1"))),
        ),
        night_sets=(
            *FUEL_AT.night_sets,
            *(replace(s, cook_group_id="g2") for s in FUEL_AT.night_sets),
        ),
        reserves=(*FUEL_AT.reserves, replace(FUEL_AT.reserves[0], cook_group_id="g2")),
    ),
    "g2",
)
"""Two of the kitchen and one guest: 150 mL of reserve in the kitchen's cans of 100 mL."""
ALL_BAGS = "g1/meal*2 g1/storm*2 g2/meal g2/storm"

CASES = (
    _case("storm: at", STORM, "g1/meal*8", "g1/meal*4"),
    _case("storm: above", STORM, "g1/meal*9", "g1/meal*5"),
    _case("storm: one set short is a night short", STORM, "g1/meal*7", "g1/meal*3", finds=(1,)),
    _case("storm: one set short, then three", STORM, "g1/meal*5", "g1/meal", finds=(1, 2)),
    _case("two reserves at a place add up", TWICE, "g1/meal*8", "g1/meal*4"),
    _case("and are short together", TWICE, "g1/meal*7", "g1/meal*3", finds=(1,)),
    _case(
        "descent: waits while they are above",
        DESCENT,
        "g1/meal*8",
        "g1/meal*4",
        "",
        "g1/meal*2",
    ),
    _case(
        "descent: taken higher by mistake",
        DESCENT,
        "g1/meal*8",
        "g1/meal*6",
        "g1/meal*2",
        "g1/meal*2",
        finds=(1,),
    ),
    _case("fuel: at", FUEL_AT, "g1/meal*2 g1/storm*2 g1/can", "g1/storm*2 g1/can"),
    _case(
        "fuel: the margin takes another can",
        FUEL_ABOVE,
        "g1/meal*2 g1/storm*2 g1/can*2",
        "g1/storm*2 g1/can*2",
    ),
    _case(
        "fuel: two millilitres short",
        FUEL_ABOVE,
        "g1/meal*2 g1/storm*2 g1/can",
        "g1/storm*2 g1/can",
        finds=(1,),
    ),
    _case(
        "fuel of guests: in the kitchen's cans",
        GUESTS,
        f"{ALL_BAGS} g1/can*2",
        "g1/storm*2 g2/storm g1/can*2",
    ),
    _case(
        "fuel of guests: a can short",
        GUESTS,
        f"{ALL_BAGS} g1/can",
        "g1/storm*2 g2/storm g1/can",
        finds=(1,),
    ),
    _case("food and fuel are told apart", FUEL_AT, "g1/meal*2", "", finds=(1, 1)),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_reserve_stands_whole_on_each_of_its_nights(case):
    """A reserve holds nights times people in food and in unopened fuel after each night's use."""
    assert found(case.problem, case.plan) == case.finds


def test_a_descent_reserve_is_held_until_the_last_night_above():
    """A reserve taken up on day 2 is missing on the nights of days 2 and 3, told once."""
    (finding,) = check(DESCENT, CASES[7].plan).findings
    assert dict(finding.where) == {"day": 2, "last_day": 3, "place": "c1", "unit": "g1/meal"}
    assert "nights of days 2 to 3: 2 night sets meal too few" in finding.message


def test_a_base_wait_is_held_on_every_night_for_the_whole_group():
    """What is not left at the strip for both is a night short, from the first night on."""
    wait = _reserve(ReserveKind.BASE_WAIT, "strip")
    problem = _world("strip-c1 c1-strip", wait)
    trips = ({"m1": "g1/meal*2"}, {})
    stock = {
        (1, "c1"): "",
        (1, "strip"): "g1/meal",
        (2, "strip"): "g1/meal",
    }
    enough = plan_of(
        problem,
        *trips,
        stock={(0, "strip"): "g1/meal*4", (1, "strip"): "g1/meal*2", (2, "strip"): "g1/meal*2"},
    )
    short = plan_of(problem, *trips, stock={(0, "strip"): "g1/meal*3"} | stock)
    assert found(problem, enough) == ()
    assert found(problem, short) == ((RULE, 1),)


def test_an_open_container_is_no_reserve():
    """A can that is opened for the night no longer counts, however much is left in it."""
    cooking = NightSet("meal", "g1", 100, 0, 0, 0, 10)
    problem = world(
        "strip-c1 c1-strip",
        groups=(CookGroup("g1", (("c1", "meal"),), (CAN,)),),
        night_sets=(cooking,),
        reserves=(_reserve(ReserveKind.STORM, "c1"),),
        rules=RuleSettings(switched_off=frozenset({"fuel_spread"})),
    )
    weights = {("g1/can/open-1", 2): (30 + 63, 200)}
    one = plan_of(
        problem, {"m1": "g1/meal*2 g1/can"}, {"m1": "g1/meal g1/can/open-1"}, weights=weights
    )
    two = plan_of(
        problem,
        {"m1": "g1/meal*2 g1/can*2"},
        {"m1": "g1/meal g1/can g1/can/open-1"},
        weights=weights,
    )
    assert found(problem, one) == ((RULE, 1),)
    assert found(problem, two) == ()
