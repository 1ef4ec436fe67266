"""Diet kept: each set of the cook group suits the person's diet."""

from functools import partial

import pytest

from tests.rules.food_worlds import fed, hard, held, one, told, two_groups
from tests.rules.worlds import RequestCase, request_found

RULE = "diet_kept"
_case = partial(hard, RULE)

CASES = (
    _case("no diet told", fed()),
    _case("suits", one(fed(diets=("vegetarian", "vegan")), diet="vegetarian")),
    _case("does not suit", one(fed(diets=("vegan",)), diet="vegetarian"), 1),
    _case("no diet said of the set", one(fed(), diet="vegetarian"), 1),
    _case("reserve does not suit", one(held(fed(diets=("vegan",))), diet="vegan"), 1),
    _case("another group's set does not suit", one(two_groups(diets=("other",)), diet=None)),
    _case("neither suits", one(held(fed()), diet="vegan"), 1, 1),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_each_set_suits_the_diet(case: RequestCase) -> None:
    """Each set of the own cook group that is not said to suit the diet is told."""
    assert request_found(case.problem, RULE) == case.finds


def test_person_diet_and_set_are_named() -> None:
    """The words tell person, diet and set, and offer another menu or cook group."""
    (finding,) = told(CASES[2].problem, RULE)
    assert "m1 keeps a vegetarian diet" in finding.message
    assert "night set meal of cook group g1" in finding.message
    assert len(finding.instead) == 3
