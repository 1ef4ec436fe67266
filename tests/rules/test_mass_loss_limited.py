"""Mass loss limited: body mass that a lack of food likely takes."""

from dataclasses import replace
from functools import partial

import pytest

from solver.problem import Conditions, Physique, Sex
from tests.rules.food_worlds import fed, one, soft, told
from tests.rules.worlds import RequestCase, request_found

RULE = "mass_loss_limited"
_case = partial(soft, RULE)


def starving(rest_days: int, mass_g: int | None = 80_000, energy_kcal: int | None = 1_000):
    """One climb and that many days in camp on little food, for one person."""
    days = " ".join(("strip-c1", *["c1"] * rest_days, "c1-strip"))
    return one(fed(days, energy_kcal=energy_kcal), body_mass_g=mass_g)


def woman(problem):
    """The problem with its person a woman of 60 years."""
    (first,) = problem.roster
    body = Physique(first.person_id, age_years=60, sex=Sex.FEMALE)
    return replace(problem, conditions=Conditions(physiques=(body,)))


# A man of 80 kg and 35 years: basal 11.472 x 80 + 873.1 = 1790.9 kcal, times 2.4 4298.1 and times
# 1.8 3223.6. A kilogram of body is 0.61 x 9440 + 0.39 x 1820 = 6468.2 kcal, 5 % of him 4 kg.
# On 1000 kcal: (3298.1 + 10 x 2223.6) / 6468.2 = 3.948 kg and (3298.1 + 11 x 2223.6) / 6468.2 =
# 4.291 kg.
CASES = (
    _case("ten days in camp", starving(10)),
    _case("eleven days in camp", starving(11), 292),
    _case("mass not given", starving(11, mass_g=None)),
    _case("energy not given", starving(11, energy_kcal=None)),
    _case("enough to eat", starving(11, energy_kcal=4_300)),
    # 9.082 x 80 + 658.5 = 1385.1 basal: 2.4 and 1.8 of it less 1000 are 2324.1 and 1493.1 kcal.
    _case("a woman of 60 needs less", woman(starving(11))),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_mass_lost_beyond_the_limit_is_told(case: RequestCase) -> None:
    """What is lost beyond 5 % of the body is told in grams."""
    assert request_found(case.problem, RULE) == case.finds


def test_person_loss_and_limit_are_named() -> None:
    """The words tell who, how much, which share of the body and the limit."""
    (finding,) = told(CASES[1].problem, RULE)
    assert "likely loses 4.3 kg, 5.4 % of the body, 5 % is the most" in finding.message
