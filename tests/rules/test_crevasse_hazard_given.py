"""Crevasse hazard given: routes with a hazard on every leg, on one, and on none travelled."""

import pytest

from solver.problem import Hazard
from tests.rules.calendar_worlds import on_legs, soft_case, told
from tests.rules.worlds import RequestCase, asked_alone, request_found, world

RULE = "crevasse_hazard_given"
WORLD = world("strip-c1-c2-c1-strip")
HIGH, NONE = {"crevasse_hazard": Hazard.HIGH}, {"crevasse_hazard": None}


def _partly(name: str, first, second, *amounts: int) -> RequestCase:
    problem = on_legs(WORLD, first, second)
    if HIGH in (first, second):
        problem = asked_alone(problem, RULE)
    return RequestCase(name, problem, tuple((RULE, amount) for amount in amounts))


CASES = (
    soft_case(RULE, "of all legs", WORLD),
    _partly("of the first leg only", HIGH, NONE, 1),
    _partly("of the second leg only", NONE, HIGH, 1),
    _partly("of no leg", NONE, NONE, 2),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_legs_of_no_told_hazard_are_counted(case: RequestCase) -> None:
    """On a glaciated route every leg that is travelled has its hazard told."""
    assert request_found(case.problem, RULE) == case.finds


def test_legs_are_named() -> None:
    """The words name the legs that are not judged."""
    (finding,) = told(CASES[1].problem, RULE)
    assert finding.message.startswith("the crevasse hazard of c1 to c2 is not given")


def test_a_route_without_any_hazard_is_told_what_is_not_judged() -> None:
    """Where no leg gives its hazard, the words say that no rule of glaciers is asked."""
    (finding,) = told(CASES[3].problem, RULE)
    assert finding.message.startswith("no leg gives its crevasse hazard: no rule of glaciers")
