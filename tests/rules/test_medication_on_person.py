"""Medication on person: worn, on every trip, by night only, and only part of the way."""

from functools import partial

import pytest

from solver.problem import Need, NeedKind, Problem, Purpose
from tests.rules.calendar_worlds import hard_case, told
from tests.rules.party_worlds import WORN, thing
from tests.rules.worlds import EVERY_NIGHT, EVERY_TRIP, RequestCase, request_found, world

RULE = "medication_on_person"
_case = partial(hard_case, RULE)


def _world(need: Need, owner_id: str | None = "m1", count: int = 1) -> Problem:
    pills = thing(Purpose.MEDICATION, need, owner_id=owner_id, count=count)
    return world("strip-c1 c1-c2-c1-strip", gear=(pills,))


CASES = (
    _case("on every trip", _world(EVERY_TRIP)),
    _case("worn", _world(WORN)),
    _case("by night only", _world(EVERY_NIGHT), 1),
    _case("two by night only", _world(EVERY_NIGHT, count=2), 2),
    _case("as far as the first camp", _world(Need(NeedKind.EVERY_TRIP, up_to="c1")), 1),
    _case("as far as anybody goes", _world(Need(NeedKind.EVERY_TRIP, up_to="c2"))),
    _case("from the first camp on", _world(Need(NeedKind.EVERY_TRIP, from_place="c2")), 1),
    _case("with the way to the first camp", _world(Need(NeedKind.EVERY_TRIP, from_place="c1"))),
    _case("the party's", _world(EVERY_NIGHT, None)),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_medication_is_with_its_owner(case: RequestCase) -> None:
    """Personal medication is worn, or needed on every trip wherever its owner goes."""
    assert request_found(case.problem, RULE) == case.finds


def test_owner_and_item_are_named() -> None:
    """The words name whose medication it is, and offer both ways to keep it near."""
    (finding,) = told(CASES[2].problem, RULE)
    assert finding.message.startswith("medication is medication of m1")
    assert len(finding.instead) == 2
