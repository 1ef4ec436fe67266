"""Injector listed: people with a severe allergy, with an injector and without."""

from dataclasses import replace
from functools import partial

import pytest

from solver.problem import Problem, Purpose
from tests.rules.calendar_worlds import soft_case, told
from tests.rules.party_worlds import WORN, team, thing
from tests.rules.worlds import RequestCase, request_found, world

RULE = "injector_listed"
_case = partial(soft_case, RULE)


def _world(*, reacts: bool, has: bool) -> Problem:
    m1, m2 = team("r1", "m1", "m2")
    m1 = replace(m1, reacts_to=("nuts",) if reacts else (), avoids=("nuts",))
    pens = tuple(thing(Purpose.INJECTOR, WORN, owner_id=p) for p in ("m1", "m2")) if has else ()
    return world(people=(m1, m2), gear=pens)


CASES = (
    _case("has one", _world(reacts=True, has=True)),
    _case("has none", _world(reacts=True, has=False), 1),
    _case("only avoids it", _world(reacts=False, has=False)),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_severe_allergy_asks_after_an_injector(case: RequestCase) -> None:
    """Whoever reacts to traces and has no injector listed is named in a caution."""
    assert request_found(case.problem, RULE) == case.finds


def test_person_and_allergen_are_named() -> None:
    """The words name who reacts to what, and leave the decision to the physician."""
    (finding,) = told(CASES[1].problem, RULE)
    assert finding.message.startswith("m1 reacts even to traces of nuts")
    assert "ask the physician" in finding.message
