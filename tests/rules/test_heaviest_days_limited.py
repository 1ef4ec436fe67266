"""Heaviest days limited: the checker with one person heaviest for two and for three days."""

import pytest

from solver.checker import check
from solver.problem import Problem
from tests.rules.worlds import Case, item, person, plan_of, remarked, world

RULE = "heaviest_days_limited"
TWO = (person("m1"), person("m2"))
GEAR = (
    item("own", mass_g=4_000, owner_id="m1"),
    item("own", mass_g=4_000, owner_id="m2"),
    item("kit", mass_g=4_000),
)
M1 = {"m1": "m1/own kit", "m2": "m2/own"}
M2 = {"m1": "m1/own", "m2": "m2/own kit"}
BAGS = {2: " g1/meal*2", 4: " g1/meal*4", 6: " g1/meal*6"}


def _with_food(loads: dict[str, str], bags: int) -> dict[str, str]:
    """Some 10 g bags more in the pack of m2, far less than a whole per cent of 20 kg."""
    return loads | {"m2": loads["m2"] + BAGS.get(bags, "")}


def _world(days: str) -> Problem:
    return world(days, people=TWO, gear=GEAR)


THREE = _world("strip-c1 c1-c2 c2-c1-strip")
REST = _world("strip-c1 c1 c1-c2 c2-c1-strip")
SHORT = _world("strip-c1 c1-strip")
ALONE = world("strip-c1 c1-c2 c2-c1-strip", gear=(item("kit"),))
LONG = _world("strip-c1 c1-c2 c2-c1 c1-strip")

CASES = (
    Case("two days", SHORT, plan_of(SHORT, _with_food(M1, 2), M1)),
    Case(
        "three", THREE, plan_of(THREE, _with_food(M1, 4), _with_food(M1, 2), M1, M1), ((RULE, 1),)
    ),
    Case(
        "four",
        LONG,
        plan_of(LONG, _with_food(M1, 6), _with_food(M1, 4), _with_food(M1, 2), M1),
        ((RULE, 2),),
    ),
    Case("taking turns", THREE, plan_of(THREE, _with_food(M1, 4), _with_food(M2, 2), M1, M1)),
    Case(
        "one's day, then the other's",
        LONG,
        plan_of(LONG, _with_food(M1, 6), _with_food(M2, 4), _with_food(M2, 2), M2),
        ((RULE, 1),),
    ),
    Case(
        "a day shared",
        THREE,
        # On the third day each of them once has the kit.
        plan_of(THREE, _with_food(M1, 4), _with_food(M1, 2), M1, M2),
    ),
    Case(
        "a rest day between",
        REST,
        plan_of(REST, _with_food(M1, 6), _with_food(M1, 2), M1, M1),
        ((RULE, 1),),
    ),
    Case(
        "alone",
        ALONE,
        plan_of(
            ALONE, {"m1": "kit g1/meal*2"}, {"m1": "kit g1/meal"}, {"m1": "kit"}, {"m1": "kit"}
        ),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_nobody_alone_is_heaviest_for_more_than_two_travel_days_running(case):
    """Two days running are fine; three are remarked, rest days in between or not."""
    assert remarked(case.problem, case.plan, RULE) == case.finds


def test_the_words_name_person_and_days():
    """The remark says who had the highest load, from which day to which."""
    case = CASES[6]
    told = check(case.problem, case.plan).remarks
    (remark,) = [r for r in told if r.finding.rule_id == RULE]
    assert remark.finding.message == (
        "m1 has the day's highest load on 3 travel days running, days 1 to 4, at most 2"
    )
