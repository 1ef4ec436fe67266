"""Injector doubled: who ties in beside the owner of an injector, and what they carry."""

from functools import partial

import pytest

from solver.problem import Item, Need, Problem, Purpose
from tests.rules.calendar_worlds import hard_case, told
from tests.rules.party_worlds import WORN, team, thing
from tests.rules.worlds import EVERY_NIGHT, EVERY_TRIP, RequestCase, request_found, world

RULE = "injector_doubled"
_case = partial(hard_case, RULE)
GUIDED = (*team("r1", "guide-1", "c-1", "c-2"), *team("r2", "guide-2"))
UNGUIDED = team("r1", "m1", "m2")


def _pen(owner: str, need: Need = EVERY_TRIP) -> Item:
    return thing(Purpose.INJECTOR, need, owner_id=owner)


def _world(*gear: Item, people=GUIDED) -> Problem:
    return world("strip-c1 c1-strip", people=people, gear=gear)


CASES = (
    _case("with the guide on the rope", _world(_pen("c-1"), _pen("guide-1"))),
    _case("worn by both", _world(_pen("c-1", WORN), _pen("guide-1", WORN))),
    _case("one only", _world(_pen("c-1")), 1),
    _case("with another client", _world(_pen("c-1"), _pen("c-2")), 1, 1),
    _case("with the other rope's guide", _world(_pen("c-1"), _pen("guide-2")), 1, 1),
    _case("the guide's left in camp", _world(_pen("c-1"), _pen("guide-1", EVERY_NIGHT)), 1, 1),
    _case("the owner's left in camp", _world(_pen("c-1", EVERY_NIGHT), _pen("guide-1")), 1, 1),
    _case("no guides, with the other member", _world(_pen("m1"), _pen("m2"), people=UNGUIDED)),
    _case("no guides, one only", _world(_pen("m1"), people=UNGUIDED), 1),
    _case("nobody has one", _world()),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_second_injector_on_the_rope(case: RequestCase) -> None:
    """An injector is on its owner, and another on a guide of the same rope team."""
    assert request_found(case.problem, RULE) == case.finds


def test_the_guide_who_needs_one_is_named() -> None:
    """The words name the owner, and the guide who should have the second."""
    (finding,) = told(CASES[2].problem, RULE)
    assert finding.message.endswith(
        "c-1 has a second injector on every trip: a guide of rope team r1 needs one"
    )
    assert finding.instead == ("an injector of their own for guide-1",)
