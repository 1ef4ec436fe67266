"""Energy on target: energy by height and for storms."""

from functools import partial

import pytest

from tests.rules.calendar_worlds import at_elevations, numbered
from tests.rules.food_worlds import fed, held, soft, told
from tests.rules.worlds import RequestCase, request_found

RULE = "energy_on_target"
_case = partial(soft, RULE)

CASES = (
    _case("not told", fed()),
    _case("low, at", fed(energy_kcal=4000)),
    _case("low, below", fed(energy_kcal=3999), 1),
    _case("a metre below the middle, low", at_elevations(fed(energy_kcal=3700), 0, 2999), 300),
    _case("middle begins", at_elevations(fed(energy_kcal=3700), 0, 3000)),
    _case("a metre above the middle", at_elevations(fed(energy_kcal=3699), 0, 3001), 1),
    _case("a metre below high", at_elevations(fed(energy_kcal=3699), 0, 3999), 1),
    _case("high begins", at_elevations(fed(energy_kcal=3700), 0, 4000)),
    _case("a metre above high", at_elevations(fed(energy_kcal=3000), 0, 4001), 700),
    _case(
        "a stated lower figure for high camps",
        numbered(at_elevations(fed(energy_kcal=3000), 0, 4000), high_energy_kcal=3000),
    ),
    _case("storm set at", held(fed(energy_kcal=4000), energy_kcal=2800)),
    _case("storm set below", held(fed(energy_kcal=4000), energy_kcal=2799), 1),
    _case(
        "worst of two places told once",
        at_elevations(fed("strip-c1 c1-c2 c2-c1-strip", energy_kcal=3600), 0, 2000, 3000),
        400,
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_energy_meets_the_target_of_its_height(case: RequestCase) -> None:
    """What a set lacks at its worst place is told in kilocalories."""
    assert request_found(case.problem, RULE) == case.finds


def test_set_height_and_target_are_named() -> None:
    """The words tell set, place, height, energy and target."""
    (finding,) = told(CASES[2].problem, RULE)
    assert "night set meal of cook group g1 at c1, 1000 m, has 3999 kcal" in finding.message
    assert "4000 kcal is the target" in finding.message
