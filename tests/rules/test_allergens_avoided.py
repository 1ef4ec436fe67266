"""Allergens avoided: nobody's cook group eats what that person must not eat."""

from dataclasses import replace
from functools import partial

import pytest

from solver.problem import Problem
from tests.rules.food_worlds import fed, hard, held, one, set_of, told, two_groups
from tests.rules.guest_worlds import guest_of
from tests.rules.worlds import RequestCase, request_found

RULE = "allergens_avoided"
_case = partial(hard, RULE)
_TWO_NIGHTS = "strip-c1 c1 c1-strip"


def _unused() -> Problem:
    spare = set_of(set_id="spare", contains=("nuts",))
    return replace(fed(), night_sets=(*fed().night_sets, spare))


CASES = (
    _case("nothing avoided", fed(contains=("nuts",))),
    _case("not in the set", one(fed(contains=("nuts",)), avoids=("milk",))),
    _case("in the set", one(fed(contains=("nuts", "milk")), avoids=("milk",)), 1),
    _case("reacted to", one(fed(contains=("nuts",)), reacts_to=("nuts",)), 1),
    _case(
        "two in the set",
        one(fed(contains=("nuts", "milk")), avoids=("milk",), reacts_to=("nuts",)),
        2,
    ),
    _case(
        "told twice is one", one(fed(contains=("nuts",)), avoids=("nuts",), reacts_to=("nuts",)), 1
    ),
    _case("in the reserve only", one(held(fed(), contains=("nuts",)), avoids=("nuts",)), 1),
    _case("in a set that nobody uses", one(_unused(), avoids=("nuts",))),
    _case("in another cook group's set", one(two_groups(contains=("nuts",)), avoids=("nuts",))),
    _case(
        "avoided in a guest's set",
        one(guest_of(two_groups(contains=("nuts",)), "g2"), avoids=("nuts",)),
    ),
    _case(
        "reacted to in a guest's set",
        one(guest_of(two_groups(contains=("nuts",)), "g2"), reacts_to=("nuts",)),
        1,
    ),
    _case(
        "eaten on two nights is told once",
        one(fed(_TWO_NIGHTS, contains=("nuts",)), avoids=("nuts",)),
        1,
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_nobody_is_fed_what_they_must_not_eat(case: RequestCase) -> None:
    """Each set with something avoided is told once a person, with how many things."""
    assert request_found(case.problem, RULE) == case.finds


def test_person_set_and_allergen_are_named() -> None:
    """The words tell person, set and allergen, and offer a menu and a cook group without it."""
    (finding,) = told(CASES[2].problem, RULE)
    assert "m1 must not eat milk" in finding.message
    assert "night set meal of cook group g1" in finding.message
    assert any("menu without milk" in words for words in finding.instead)
    assert any("put m1 in a cook group" in words for words in finding.instead)
