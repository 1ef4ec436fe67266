"""Stay low with one guide: who stays high after a guide has gone down for good, and who may."""

from functools import partial

import pytest

from solver.problem import Problem
from tests.rules.calendar_worlds import hard_case, told
from tests.rules.party_worlds import GUIDED, in_two_kitchens, team
from tests.rules.worlds import RequestCase, request_found, world

RULE = "stay_low_with_one_guide"
_case = partial(hard_case, RULE)
THREE_GUIDES = (*GUIDED, *team("r1", "guide-3"))


def _world(days: str, people=GUIDED) -> Problem:
    """The first leg is a sled leg, so the sleds go to c1."""
    return in_two_kitchens(world(days, people=people, sled_leg_factors=(100, 100)))


LEFT_HIGH = "strip-c1 c1-c2 c2|c2-c1-strip c2-c1-strip|strip"

CASES = (
    _case("all together", _world("strip-c1 c1-c2 c2-c1-strip")),
    _case("one guide left up high", _world(LEFT_HIGH), 1),
    _case("one guide left where the sleds go", _world("strip-c1 c1|c1-strip c1-strip|strip")),
    _case("two guides left", _world(LEFT_HIGH, THREE_GUIDES)),
    _case(
        "the other guide comes up again",
        _world("strip-c1 c1-c2 c2|c2-c1 c2|c1-c2 c2-c1-strip"),
    ),
    _case("a trip with one guide", _world(LEFT_HIGH, (*GUIDED[:3], *team("r2", "c2-1", "c2-2")))),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_nobody_stays_high_with_the_last_guide(case: RequestCase) -> None:
    """Above the sleds' highest place two guides stay who have not gone down for good."""
    assert request_found(case.problem, RULE) == case.finds


def test_night_place_and_people_are_named() -> None:
    """The words name the night, the place and who sleeps there, and what would be allowed."""
    (finding,) = told(CASES[1].problem, RULE)
    assert finding.message.startswith(
        "night of day 3 at c2: guide-1, c1-1 and c1-2 sleep above where the sleds go with 1 guide"
    )
    assert "comes back up" in finding.instead[1]


def test_nights_in_a_row_are_told_once() -> None:
    """Two nights up high are one finding with both days."""
    days = "strip-c1 c1-c2 c2|c2-c1-strip c2|strip c2-c1-strip|strip"
    (finding,) = told(hard_case(RULE, "", _world(days), 1).problem, RULE)
    assert ("day", 3) in finding.where
    assert ("last_day", 4) in finding.where
