"""Pots enough: a pot for each cook group, and one too few."""

from functools import partial

import pytest

from solver.problem import CookGroup, Problem, Purpose
from tests.rules.calendar_worlds import hard_case, told
from tests.rules.guest_worlds import guest_of
from tests.rules.party_worlds import MEALS_OF_TWO, team, thing
from tests.rules.worlds import RequestCase, request_found, world

RULE = "pots_enough"
_case = partial(hard_case, RULE)


def _world(pots: int) -> Problem:
    at = tuple((place, "meal") for place in ("strip", "c1"))
    return world(
        people=(*team("r1", "m1"), *team("r1", "m2", cook_group_id="g2")),
        groups=(CookGroup("g1", at), CookGroup("g2", at)),
        night_sets=MEALS_OF_TWO,
        gear=(thing(Purpose.POT, count=pots),) if pots else (),
    )


CASES = (
    _case("two", _world(2)),
    _case("one for two cook groups", _world(1), 1),
    _case("one for a kitchen with guests", guest_of(_world(1), "g2")),
    _case("none", _world(0), 2),
    _case("three", _world(3)),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_each_cook_group_has_a_pot(case: RequestCase) -> None:
    """Pots are as many as cook groups at least."""
    assert request_found(case.problem, RULE) == case.finds


def test_the_numbers_are_told() -> None:
    """The words say how many pots there are, and two ways out."""
    (finding,) = told(CASES[1].problem, RULE)
    assert finding.message == "1 pot for 2 cook groups, one each is needed"
    assert len(finding.instead) == 2
