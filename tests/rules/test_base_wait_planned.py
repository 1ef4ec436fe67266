"""Base wait planned: nights at the airstrip for an aircraft that comes late."""

from functools import partial

import pytest

from solver.problem import PlaceKind, Problem, Reserve, ReserveKind
from tests.rules.calendar_worlds import hard_case, told, with_kind
from tests.rules.worlds import RequestCase, request_found, world

RULE = "base_wait_planned"
_case = partial(hard_case, RULE)


def _world(nights: int, kind: ReserveKind = ReserveKind.BASE_WAIT) -> Problem:
    planned = (Reserve("strip", "g1", kind, nights, "meal"),) if nights else ()
    return world("strip strip-c1-strip strip", reserves=planned)


CASES = (
    _case("at", _world(3)),
    _case("above", _world(4)),
    _case("a night short", _world(2), 1),
    _case("none", _world(0), 3),
    _case("a storm reserve is no wait", _world(3, ReserveKind.STORM), 3),
    _case("a road head needs none", with_kind(_world(0), "strip", PlaceKind.ROAD_HEAD)),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_an_airstrip_holds_nights_to_wait(case: RequestCase) -> None:
    """A cook group can wait at the strip where the trip starts, counted in nights."""
    assert request_found(case.problem, RULE) == case.finds


def test_the_group_and_what_to_add_are_named() -> None:
    """The words name the strip, the group and the nights to add."""
    (finding,) = told(CASES[2].problem, RULE)
    assert finding.instead == ("add a base wait of 1 night for g1 at strip",)
