"""Food facts missing: facts of food that nobody told."""

from functools import partial
from typing import Any

import pytest

from solver.problem import PlaceKind, Problem
from tests.rules.calendar_worlds import with_kind
from tests.rules.food_worlds import fed, held, soft, told, with_conditions
from tests.rules.worlds import RequestCase, request_found

RULE = "food_facts_missing"
_case = partial(soft, RULE)
_FACTS: dict[str, Any] = {
    "energy_kcal": 4000,
    "simmers": False,
    "dinner_kinds": 3,
    "lunch_needs_cooking": False,
    "lunch_kcal": 1500,
}


def _told(days: str = "strip-c1 c1-strip", **changes: Any) -> Problem:
    return with_conditions(fed(days, **{**_FACTS, **changes}), melted_l=2.0, boiled_l=2.0)


def _summit(**changes: Any) -> Problem:
    return with_kind(_told("strip-c1 c1-c2-c1 c1-strip", **changes), "c2", PlaceKind.SUMMIT)


CASES = (
    _case("all told", _told()),
    _case("energy not told", _told(energy_kcal=None), 1),
    _case("simmering not told", _told(simmers=None), 1),
    _case("dinners not told", _told(dinner_kinds=None), 1),
    _case("lunch cooking not told", _told(lunch_needs_cooking=None), 1),
    _case("lunch energy not told and no summit", _told(lunch_kcal=None)),
    _case("lunch energy not told before a summit", _summit(lunch_kcal=None), 1),
    _case("told before a summit", _summit()),
    _case("water not told", fed(**_FACTS), 1),
    _case("half of the water told", with_conditions(fed(**_FACTS), melted_l=2.0), 1),
    _case("nothing of two sets", held(fed("strip-c1 c1-strip")), 2, 1, 1, 1, 1),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_facts_not_told_are_listed(case: RequestCase) -> None:
    """Each kind of fact that is not told is one finding, with how many sets lack it."""
    assert request_found(case.problem, RULE) == case.finds


def test_set_and_fact_are_named() -> None:
    """The words tell the fact and the sets."""
    (finding,) = told(CASES[1].problem, RULE)
    assert "the energy is not given of g1/meal, so it is not checked" in finding.message
