"""Human waste carried out: human waste comes down."""

from dataclasses import replace
from functools import partial

import pytest

from solver.problem import Problem, Waste
from tests.rules.food_worlds import fed, hard, told
from tests.rules.worlds import RequestCase, request_found

RULE = "human_waste_carried_out"
_case = partial(hard, RULE)


def _planned(grams: int, days: str = "strip-c1 c1-strip", *, may_be_left: bool = False) -> Problem:
    waste = Waste(waste_g_per_person_night=grams, may_be_left=may_be_left)
    return replace(fed(days), waste=waste)


CASES = (
    _case("at", _planned(150)),
    _case("a gram less", _planned(149), 1),
    _case("nothing planned", _planned(0), 150),
    _case("may be left", _planned(0, may_be_left=True)),
    _case("nobody sleeps out", _planned(0, days="strip-c1-strip")),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_waste_comes_down(case: RequestCase) -> None:
    """Unless it may stay, grams of waste that are not planned for are told."""
    assert request_found(case.problem, RULE) == case.finds


def test_grams_are_named() -> None:
    """The words tell grams planned and least, and the land manager's word."""
    (finding,) = told(CASES[1].problem, RULE)
    assert "149 g of human waste are planned" in finding.message
    assert "150 g is the least" in finding.message
    assert len(finding.instead) == 2
