"""Fuel held: containers to open and open ones, where their cook group sleeps and elsewhere."""

import pytest

from solver.checker import check
from solver.problem import Container, CookGroup, NightSet, Problem, RuleSettings
from tests.rules.guest_worlds import with_guest
from tests.rules.worlds import Case, found, person, plan_of, world

RULE = "fuel_held"
PLACES = ("strip", "c1", "c2")


def _world(fuel_ml: int, *containers: Container, margin: int = 0, days: str) -> Problem:
    """One person who burns so much every night."""
    return world(
        days,
        people=(person("m1"),),
        groups=(CookGroup("g1", tuple((p, "meal") for p in PLACES if p in days), containers),),
        night_sets=(NightSet("meal", "g1", 10, 0, 0, 0, fuel_ml),),
        fuel_margin_percent=margin,
        rules=RuleSettings(switched_off=frozenset({"fuel_spread"})),
    )


CAN = Container("can", "g1", content_ml=100, tare_g=50, volume_ml=200)
FLASK = Container("flask", "g1", content_ml=60, tare_g=80, volume_ml=200, count=1)

NIGHT = "strip-c1 c1-strip"
WEIGHTS = {(f"g1/can/empty-{k}", day): (50, 200) for k in (1, 2) for day in (2, 3)} | {
    ("g1/flask/empty-1", 2): (80, 200),
    ("g1/can/open-1", 2): (50 + 28, 200),
    ("g1/can/open-2", 2): (50 + 69, 200),
    ("g1/can/open-1", 3): (50 + 28, 200),
}


def _case(name: str, problem: Problem, *trips: str, finds=(), weights=WEIGHTS) -> Case:
    plan = plan_of(problem, *({"m1": units} for units in trips), weights=weights)
    return Case(name, problem, plan, finds)


def _one(fuel_ml: int, margin: int = 0) -> Problem:
    return _world(fuel_ml, CAN, margin=margin, days=NIGHT)


DRAINED = "g1/can/empty-1"
SECOND = "g1/can/empty-1 g1/can/open-2"
MOVING = _world(30, CAN, days="strip-c1 c1-c2 c2-c1-strip")
LEFT = {("g1/can/open-1", 2): (99, 200), ("g1/can/open-1", 3): (78, 200)}
FLASK_FIRST = _world(60, FLASK, CAN, days=NIGHT)

CASES = (
    _case("at: one can is burnt whole", _one(100), "g1/can g1/meal", DRAINED),
    _case("above: a millilitre more takes a second", _one(101), "g1/meal g1/can*2", SECOND),
    _case(
        "missing: the second can",
        _one(101),
        "g1/meal g1/can",
        SECOND,
        finds=((RULE, 1),),
    ),
    _case("margin rounded up", _one(91, margin=10), "g1/meal g1/can*2", SECOND),
    _case(
        "margin just within",
        _one(90, margin=10),
        "g1/meal g1/can",
        "g1/can/open-1",
        weights={("g1/can/open-1", 2): (51, 200)},
    ),
    _case(
        "the open can goes along",
        MOVING,
        "g1/can g1/meal*2",
        "g1/meal g1/can/open-1",
        *["g1/can/open-1"] * 2,
        weights=LEFT,
    ),
    _case(
        "the kind listed first is opened first", FLASK_FIRST, "g1/flask g1/meal", "g1/flask/empty-1"
    ),
)
CASES = (*CASES, *map(with_guest, CASES))


@pytest.mark.parametrize("case", CASES, ids=str)
def test_what_a_group_burns_from_stands_where_it_sleeps(case):
    """A night's fuel with its margin, rounded up, comes from containers at the place."""
    assert found(case.problem, case.plan) == case.finds


def test_an_open_container_left_behind_is_told_and_its_return_is_not_doubted():
    """An open can left at c1 is missing at c2 that night; nothing else is said of it."""
    plan = plan_of(
        MOVING,
        {"m1": "g1/can g1/meal*2"},
        {"m1": "g1/meal"},
        {},
        {"m1": "g1/can/open-1"},
        weights=LEFT,
    )
    (finding,) = check(MOVING, plan).findings
    assert (finding.rule_id, finding.amount, finding.unit) == (RULE, 1, "containers")
    assert dict(finding.where) == {"day": 2, "place": "c2", "unit": "g1/can/open-1"}


def test_a_wrong_kind_of_container_does_not_stand_in_for_the_right_one():
    """A can brought in place of the flask that is to be opened first leaves the flask missing."""
    plan = plan_of(
        FLASK_FIRST, {"m1": "g1/can g1/meal"}, {"m1": "g1/can g1/flask/empty-1"}, weights=WEIGHTS
    )
    assert found(FLASK_FIRST, plan) == ((RULE, 1),)


def test_containers_that_run_out_are_told_with_what_is_missing():
    """Two flasks too few for 180 mL from one of 60 mL."""
    problem = _world(180, FLASK, days=NIGHT)
    plan = plan_of(problem, {"m1": "g1/flask g1/meal"}, {"m1": "g1/flask/empty-1"}, weights=WEIGHTS)
    (finding,) = check(problem, plan).findings
    assert (finding.rule_id, finding.amount) == (RULE, 2)
    assert "0.120 L of fuel too little" in finding.message


def test_a_group_without_any_container_lacks_one():
    """Where fuel is needed and no kind of container is named, one container is missing."""
    problem = _world(100, days=NIGHT)
    (finding,) = check(problem, plan_of(problem, {"m1": "g1/meal"}, {})).findings
    assert (finding.rule_id, finding.amount, finding.unit) == (RULE, 1, "containers")


def test_a_container_of_no_content_is_never_opened():
    """A kind that holds nothing is passed over, and the next one burns."""
    husk = Container("husk", "g1", content_ml=0, tare_g=10, volume_ml=200)
    problem = _world(100, husk, CAN, days=NIGHT)
    plan = plan_of(problem, {"m1": "g1/can g1/meal"}, {"m1": DRAINED}, weights=WEIGHTS)
    assert found(problem, plan) == ()
