"""Food mass in band: a day's food weighs about a kilogram."""

from functools import partial

import pytest

from tests.rules.food_worlds import fed, soft, told
from tests.rules.worlds import RequestCase, request_found

RULE = "food_mass_in_band"
_case = partial(soft, RULE)

CASES = (
    _case("lightest", fed(gross_g=700)),
    _case("too light", fed(gross_g=699), 1),
    _case("heaviest", fed(gross_g=1200)),
    _case("too heavy", fed(gross_g=1201), 1),
    _case("storm sets are lighter", fed(gross_g=500, storm=True)),
    _case("told once for two nights", fed("strip-c1 c1 c1-strip", gross_g=600), 100),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_days_food_weighs_what_it_weighs(case: RequestCase) -> None:
    """Grams outside the band are told once a set."""
    assert request_found(case.problem, RULE) == case.finds


def test_set_mass_and_band_are_named() -> None:
    """The words tell set, mass and band."""
    (finding,) = told(CASES[1].problem, RULE)
    assert (
        "night set meal of cook group g1 weighs 699 g, a day's food is 700 to 1200 g"
        in finding.message
    )
