"""Clothing not given: people with and without any clothing in the gear."""

from functools import partial

import pytest

from solver.problem import Purpose
from tests.rules.calendar_worlds import soft_case, told
from tests.rules.party_worlds import THREE, WORN, thing
from tests.rules.worlds import RequestCase, request_found, world

RULE = "clothing_not_given"
_case = partial(soft_case, RULE)


def _world(*owners: str, purpose: Purpose = Purpose.MITTS):
    return world(people=THREE, gear=tuple(thing(purpose, WORN, owner_id=o) for o in owners))


CASES = (
    _case("of nobody", _world(), 3),
    _case("of one not", _world("m1", "m2"), 1),
    _case("of all", _world("m1", "m2", "m3")),
    _case("a lighter is no clothing", _world("m1", "m2", "m3", purpose=Purpose.LIGHTER), 3),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_people_without_listed_clothing_are_counted(case: RequestCase) -> None:
    """Everybody of whom no clothing is listed is named in one word of caution."""
    assert request_found(case.problem, RULE) == case.finds


def test_people_are_named() -> None:
    """The words name whose clothing is not listed."""
    (finding,) = told(CASES[1].problem, RULE)
    assert finding.message.startswith("no clothing and no sleeping kit of m3 is listed")
