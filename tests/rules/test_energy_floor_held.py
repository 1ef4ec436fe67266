"""Energy floor held: no set has less than anybody gets by on."""

from functools import partial

import pytest

from tests.rules.calendar_worlds import numbered
from tests.rules.food_worlds import fed, hard, held, told
from tests.rules.worlds import RequestCase, request_found

RULE = "energy_floor_held"
_case = partial(hard, RULE)

CASES = (
    _case("not told", fed()),
    _case("at", fed(energy_kcal=2500)),
    _case("one less", fed(energy_kcal=2499), 1),
    _case("far below", fed(energy_kcal=2000), 500),
    _case("storm set at", held(fed(), energy_kcal=2500)),
    _case("storm set below", held(fed(), energy_kcal=2490), 10),
    _case("stated lower", numbered(fed(energy_kcal=2200), least_energy_kcal=2200)),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_energy_is_no_less_than_the_floor(case: RequestCase) -> None:
    """A set with its energy told has the least energy, a storm set too."""
    assert request_found(case.problem, RULE) == case.finds


def test_set_and_energies_are_named() -> None:
    """The words tell set, energy and least, and what to add."""
    (finding,) = told(CASES[2].problem, RULE)
    assert (
        "night set meal of cook group g1 has 2499 kcal for a day, 2500 kcal is the least"
        in finding.message
    )
    assert "put at least 1 kcal more into the set" in finding.instead
