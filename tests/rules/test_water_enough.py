"""Water enough: water for a person and day."""

from functools import partial

import pytest

from tests.rules.food_worlds import fed, hard, told, with_conditions
from tests.rules.worlds import RequestCase, request_found

RULE = "water_enough"
_case = partial(hard, RULE)

CASES = (
    _case("not told", fed()),
    _case("melted only told", with_conditions(fed(), melted_l=1.0)),
    _case("boiled only told", with_conditions(fed(), boiled_l=1.0)),
    _case("at", with_conditions(fed(), melted_l=2.0, boiled_l=2.0)),
    _case("a hair less", with_conditions(fed(), melted_l=2.0, boiled_l=1.995), 5),
    _case("half a litre less", with_conditions(fed(), melted_l=2.0, boiled_l=1.5), 500),
    _case("more", with_conditions(fed(), melted_l=3.0, boiled_l=1.005)),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_water_is_enough(case: RequestCase) -> None:
    """Where both are told, melted and boiled water are together the least."""
    assert request_found(case.problem, RULE) == case.finds


def test_litres_are_named() -> None:
    """The words tell litres planned and least, and how much to add."""
    (finding,) = told(CASES[5].problem, RULE)
    assert "3.5 L of water for a person and day" in finding.message
    assert "4 L is the least" in finding.message
    assert any("500 mL more" in words for words in finding.instead)
