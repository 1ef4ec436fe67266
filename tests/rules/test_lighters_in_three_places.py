"""Lighters in three places: shared ones and people's own, two places and three."""

from functools import partial

import pytest

from solver.problem import Problem, Purpose
from tests.rules.calendar_worlds import hard_case, told
from tests.rules.party_worlds import THREE, WORN, thing
from tests.rules.worlds import RequestCase, request_found, world

RULE = "lighters_in_three_places"
_case = partial(hard_case, RULE)


def _own(*owners: str):
    return tuple(thing(Purpose.LIGHTER, WORN, owner_id=owner) for owner in owners)


def _world(*gear) -> Problem:
    return world(people=THREE, gear=gear)


CASES = (
    _case("one each", _world(*_own("m1", "m2", "m3"))),
    _case("two of three have one", _world(*_own("m1", "m2")), 1),
    _case("three shared ones", _world(thing(Purpose.LIGHTER, count=3))),
    _case("two shared ones", _world(thing(Purpose.LIGHTER, count=2)), 1),
    _case("three of one person", _world(thing(Purpose.LIGHTER, WORN, owner_id="m1", count=3)), 2),
    _case("none", _world(), 3),
    _case("two own and one shared", _world(*_own("m1", "m2"), thing(Purpose.LIGHTER))),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_three_places(case: RequestCase) -> None:
    """People with a lighter of their own and shared lighters are three at least."""
    assert request_found(case.problem, RULE) == case.finds


def test_the_places_are_counted() -> None:
    """The words say how many places there are and how many it takes."""
    (finding,) = told(CASES[4].problem, RULE)
    assert finding.message.startswith("lighters or matches in 1 place, 3 needed")
    assert "2 more people" in finding.instead[0]
