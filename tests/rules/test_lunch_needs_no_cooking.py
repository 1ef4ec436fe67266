"""Lunch needs no cooking: what is eaten on the way is eaten as it is."""

from functools import partial

import pytest

from tests.rules.food_worlds import fed, hard, held, told
from tests.rules.worlds import RequestCase, request_found

RULE = "lunch_needs_no_cooking"
_case = partial(hard, RULE)

CASES = (
    _case("not told", fed()),
    _case("eaten as it is", fed(lunch_needs_cooking=False)),
    _case("cooked on one day", fed(lunch_needs_cooking=True), 1),
    _case("cooked on a day of rest", fed("strip-c1 c1 c1-strip", lunch_needs_cooking=True), 1),
    _case("cooked on two days", fed("strip-c1 c1-c2 c2-c1-strip", lunch_needs_cooking=True), 2),
    _case("held in reserve for a day of storm", held(fed(), lunch_needs_cooking=True)),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_lunches_need_no_cooking(case: RequestCase) -> None:
    """Travel days after a night with such a set are counted."""
    assert request_found(case.problem, RULE) == case.finds


def test_set_and_day_are_named() -> None:
    """The words tell the set and the first day."""
    (finding,) = told(CASES[2].problem, RULE)
    assert "the lunch of night set meal of cook group g1 needs cooking" in finding.message
    assert "first on day 2" in finding.message
    assert finding.instead
