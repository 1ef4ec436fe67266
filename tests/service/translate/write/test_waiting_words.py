"""The sentence on how long a party can sit where it is, for no, one and several nights."""

import pytest

from service.translate.write.waiting_words import waiting_words
from solver.outlook import Wait
from solver.outlook.waiting import Nights


def _wait(within: int, turn: int, place: str = "c1") -> Wait:
    return Wait(
        day=4,
        place_id=place,
        cook_group_id="g1",
        people=3,
        sets=9,
        fuel_ml=900,
        fuel_a_night_ml=300,
        until_bare=Nights(3, "food"),
        until_turn_round=Nights(turn, "fuel"),
        within_plan=Nights(within, "food"),
    )


@pytest.mark.parametrize(
    ("within", "sits"),
    [
        (3, "You can sit 3 more nights at c1 without the plan missing anything (food is short"),
        (1, "You can sit 1 more night at c1 without the plan missing anything (food is short"),
        (0, "You can sit no more nights at c1: the plan needs all the food there;"),
    ],
)
def test_nights_that_can_be_sat_are_counted_in_words(within, sits):
    """Several, one or none."""
    assert waiting_words([_wait(within, 4)]).startswith(sits)


@pytest.mark.parametrize(("turn", "nights"), [(4, "5 more nights"), (0, "1 more night")])
def test_the_night_that_reaches_the_turn_round_stock_is_told(turn, nights):
    """After `turn` nights the stock is still above the turn-round stock; one more reaches it."""
    said = waiting_words([_wait(3, turn)])
    assert f"; with {nights} you are down to the turn-round stock (fuel)." in said


def test_the_cook_group_that_can_sit_least_is_told():
    """Of two groups at two places the one that is short first."""
    said = waiting_words([_wait(3, 4), _wait(2, 1, "c2")])
    assert said.startswith("You can sit 2 more nights at c2")
    assert "with 2 more nights you are down to" in said
