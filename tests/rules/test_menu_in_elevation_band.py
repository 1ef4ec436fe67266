"""Menu in elevation band: sets are eaten where they are meant for."""

from functools import partial

import pytest

from tests.rules.calendar_worlds import at_elevations
from tests.rules.food_worlds import fed, soft, told
from tests.rules.worlds import RequestCase, request_found

RULE = "menu_in_elevation_band"
_case = partial(soft, RULE)

CASES = (
    _case("nothing told", at_elevations(fed(), 0, 6000)),
    _case("at the lowest", fed(lowest_m=1000)),
    _case("below the lowest", fed(lowest_m=1001), 1),
    _case("at the highest", fed(highest_m=1000)),
    _case("above the highest", fed(highest_m=999), 1),
    _case("simmers at the limit", at_elevations(fed(simmers=True), 0, 3250)),
    _case("simmers above", at_elevations(fed(simmers=True), 0, 3251), 1),
    _case("only boils high up", at_elevations(fed(simmers=False), 0, 5000)),
    _case(
        "simmers above and meant for lower",
        at_elevations(fed(simmers=True, highest_m=2000), 0, 3300),
        1300,
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_menus_stay_in_their_band(case: RequestCase) -> None:
    """Metres outside a set's band, and above where cooks simmer, are told."""
    assert request_found(case.problem, RULE) == case.finds


def test_set_place_and_limit_are_named() -> None:
    """The words tell set, place, height and both limits."""
    (finding,) = told(CASES[8].problem, RULE)
    assert "night set meal of cook group g1 at c1, 3300 m" in finding.message
    assert "is meant up to 2000 m and simmers, for 3250 m at most" in finding.message
