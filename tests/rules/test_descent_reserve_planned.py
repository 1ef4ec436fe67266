"""Descent reserve planned: a night more than planned at each camp of the way down."""

from functools import partial

import pytest

from solver.problem import Problem, Reserve, ReserveKind
from tests.rules.calendar_worlds import hard_case, numbered, told
from tests.rules.worlds import RequestCase, request_found, world

RULE = "descent_reserve_planned"
_case = partial(hard_case, RULE)
DOWN_IN_TWO = "strip-c1 c1-c2 c2-c1 c1-strip"


def _world(days: str, *planned: tuple[str, ReserveKind, int]) -> Problem:
    reserves = tuple(Reserve(place, "g1", kind, n, "meal") for place, kind, n in planned)
    return world(days, reserves=reserves)


CASES = (
    _case("at", _world(DOWN_IN_TWO, ("c1", ReserveKind.DESCENT, 1))),
    _case("none", _world(DOWN_IN_TWO), 1),
    _case("a storm reserve is as good", _world(DOWN_IN_TWO, ("c1", ReserveKind.STORM, 1))),
    _case("down in a day", _world("strip-c1 c1-c2 c2-c1-strip")),
    _case("a night at the start needs none", _world("strip-c1 c1-c2 c2-c1-strip strip strip")),
    _case("the highest camp is not on the way down", _world("strip-c1 c1 c1-strip")),
    _case(
        "a camp slept at before the last high night is not either",
        _world("strip-c1 c1-c2 c2-c1 c1-c2 c2-c1-strip"),
    ),
    _case(
        "another number",
        numbered(_world(DOWN_IN_TWO, ("c1", ReserveKind.DESCENT, 1)), descent_nights=2),
        1,
    ),
    _case(
        "two camps on the way down, one without",
        _world("strip-c1 c1-c2 c2-c3 c3-c2 c2-c1 c1-strip", ("c2", ReserveKind.DESCENT, 1)),
        1,
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_each_camp_of_the_way_down_holds_more_than_planned(case: RequestCase) -> None:
    """Where a group sleeps after its last high night it has a reserve, counted in nights."""
    assert request_found(case.problem, RULE) == case.finds


def test_camp_and_group_are_named() -> None:
    """The words name the camp that lacks a reserve, and what would do."""
    (finding,) = told(CASES[-1].problem, RULE)
    assert dict(finding.where) == {"place": "c1", "cook_group": "g1"}
    assert finding.instead == ("add a descent reserve of 1 night for g1 at c1",)
