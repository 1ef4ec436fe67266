"""Second link: sleds on crevassed legs, and none."""

from functools import partial

import pytest

from solver.problem import Problem, Sled
from tests.rules.calendar_worlds import soft_case, told
from tests.rules.worlds import RequestCase, person, request_found, world

RULE = "second_link"
_case = partial(soft_case, RULE)


def _world(*haulers: str) -> Problem:
    people = tuple(person(name, sled_g=20_000) for name in ("m1", "m2"))
    sleds = tuple(Sled(f"sled-{name}", name, 1_000, 90_000, 90_000) for name in haulers)
    return world(people=people, sleds=sleds, sled_leg_factors=(100, 100))


CASES = (
    _case("no sled", _world()),
    _case("one sled", _world("m1"), 1),
    _case("two sleds", _world("m1", "m2"), 2),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_every_hauled_sled_is_named_once(case: RequestCase) -> None:
    """Sleds hauled over crevassed legs are counted in one word of caution."""
    assert request_found(case.problem, RULE) == case.finds


def test_sleds_are_named() -> None:
    """The words name the sleds and say what to check."""
    (finding,) = told(CASES[2].problem, RULE)
    assert "sled-m1 and sled-m2" in finding.message
    assert "second link" in finding.message
