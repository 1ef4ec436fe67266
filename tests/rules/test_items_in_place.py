"""Items in place: what belongs at a place, there in time and long enough, and not."""

from dataclasses import replace

import pytest

from solver.checker import check
from solver.problem import Need, NeedKind, Problem
from tests.rules.worlds import Case, found, item, plan_of, world

RULE = "items_in_place"
AT_C1 = Need(NeedKind.AT_PLACE, up_to="c1", may_go_ahead=True)
AT_C2 = Need(NeedKind.AT_PLACE, up_to="c2")

FURTHER = ("goes_no_further", 1)


def _case(name: str, problem: Problem, *loads: str, finds=()) -> Case:
    """The only person's loads, trip by trip."""
    return Case(name, problem, plan_of(problem, *({"m1": units} for units in loads)), finds)


POLES = world("strip-c1 c1-c2 c2-c1-strip", gear=(item("pole", AT_C1, count=2),))
PASSING = world("strip-c1-c2 c2-c1-strip", gear=(item("pole", AT_C1),))
BOUND = world("strip-c1-c2-c1 c1-c2 c2-c1-strip", gear=(item("pole", AT_C2),))
RETURNING = world("strip-c1 c1-strip strip-c1 c1-strip", gear=(item("pole", AT_C1),))

# Nights at c1, c1 and c1, then home: what may not follow is due on the first of them.
STAYING = "strip-c1 c1 c1-strip-c1 c1-strip"
LATE = ("g1/meal*3", "", "pole", "pole")
FOLLOWS = Need(NeedKind.AT_PLACE, up_to="c1", may_go_ahead=True, may_follow=True)


def _late(name: str, need: Need, *over: int) -> Case:
    problem = world(STAYING, gear=(item("pole", need),))
    return _case(name, problem, *LATE, finds=tuple((RULE, n) for n in over))


CASES = (
    _late("two nights late", AT_C1, 1),
    _late("two nights late and may follow", FOLLOWS),
    _late("two nights late and may not go ahead", replace(AT_C1, may_go_ahead=False), 1),
    _case("there all the time", POLES, "pole*2 g1/meal*2", "g1/meal", "", "pole*2"),
    _case("one of two missing", POLES, "pole g1/meal*2", "g1/meal", "", "pole", finds=((RULE, 1),)),
    _case("never brought", POLES, "g1/meal*2", "g1/meal", "", "", finds=((RULE, 2),)),
    _case(
        "taken beyond",
        POLES,
        "pole*2 g1/meal*2",
        "pole g1/meal",
        "pole",
        "pole*2",
        finds=((RULE, 1), FURTHER),
    ),
    _case("needed when they pass", PASSING, "pole g1/meal", "g1/meal", "", "pole"),
    _case(
        "not there when they pass",
        PASSING,
        "pole g1/meal",
        "pole g1/meal",
        "pole",
        "pole",
        finds=((RULE, 1), FURTHER),
    ),
    _case(
        "may not go ahead and does not",
        BOUND,
        "pole g1/meal*2",
        "",
        "",
        "pole g1/meal",
        "pole",
        "pole",
    ),
    _case(
        "may not go ahead and is never brought",
        BOUND,
        "g1/meal*2",
        "",
        "",
        "g1/meal",
        "",
        "",
        finds=((RULE, 1), (RULE, 1)),
    ),
    _case(
        "goes ahead all the same",
        BOUND,
        "pole g1/meal*2",
        "pole",
        "",
        "g1/meal",
        "pole",
        "pole",
        finds=((RULE, 1),),
    ),
    _case("stays until they leave for good", RETURNING, "pole g1/meal", "", "g1/meal", "pole"),
    _case(
        "taken home between",
        RETURNING,
        "pole g1/meal",
        "pole",
        "pole g1/meal",
        "pole",
        finds=((RULE, 1),),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_what_belongs_at_a_place_stands_there_without_a_gap(case):
    """It is there from the first night or passage of its people until they last go home."""
    assert found(case.problem, case.plan) == case.finds


def test_a_carry_to_its_place_does_not_yet_make_it_needed_there():
    """An item that may not go ahead is missed at c1 on the night after it was carried to c2."""
    case = next(case for case in CASES if case.name == "goes ahead all the same")
    (finding,) = check(case.problem, case.plan).findings
    assert dict(finding.where) == {"day": 1, "place": "c1", "unit": "pole"}
    assert "it may not go ahead" in finding.message
