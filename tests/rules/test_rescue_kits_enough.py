"""Rescue kits enough: one, two and three rescue kits with a party."""

from functools import partial

import pytest

from solver.problem import Problem, Purpose
from tests.rules.calendar_worlds import hard_case, numbered, told
from tests.rules.party_worlds import THREE, WORN, team, thing
from tests.rules.worlds import RequestCase, request_found, world

RULE = "rescue_kits_enough"
_case = partial(hard_case, RULE)


def _world(count: int) -> Problem:
    return world(people=THREE, gear=(thing(Purpose.RESCUE_KIT, count=count),))


APART = world(
    "strip-c1-strip|strip-c1-strip",
    people=(*team("r1", "m1", "m2"), *team("r2", "m3")),
    gear=(
        thing(Purpose.RESCUE_KIT, WORN, item_id="kit-1", owner_id="m1"),
        thing(Purpose.RESCUE_KIT, item_id="kit-2", rope_team_id="r1"),
        thing(Purpose.RESCUE_KIT, item_id="kit-3", rope_team_id="r2"),
    ),
)

CASES = (
    _case("two", _world(2)),
    _case("one", _world(1), 1),
    _case("none", world(people=THREE), 2),
    _case("three", _world(3)),
    _case("one of two parties has one only", APART, 1),
    _case("three asked for", numbered(_world(2), least_rescue_kits=3), 1),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_rescue_kit_for_both_ends_of_the_rope(case: RequestCase) -> None:
    """Every party on a crevassed leg has two rescue kits with it, worn ones counted."""
    assert request_found(case.problem, RULE) == case.finds


def test_the_party_short_of_kit_is_named() -> None:
    """The words name who has too few and how many more it takes."""
    (finding,) = told(CASES[4].problem, RULE)
    assert finding.message.startswith("m3 has 1 rescue kit with them on day 1, strip to c1")
    assert finding.instead[0].startswith("1 rescue kit more")
