"""Lunch shared with allergic: rope-mates of somebody who reacts severely eat none of it."""

from dataclasses import replace
from functools import partial

import pytest

from tests.rules.food_worlds import fed, one, soft, told, two_groups
from tests.rules.guest_worlds import guest_of
from tests.rules.worlds import RequestCase, request_found

RULE = "lunch_shared_with_allergic"
_case = partial(soft, RULE)

CASES = (
    _case("nobody reacts", two_groups(contains=("nuts",))),
    _case("avoided only", one(two_groups(contains=("nuts",)), avoids=("nuts",))),
    _case("reacts, same rope", one(two_groups(contains=("nuts",)), reacts_to=("nuts",)), 1),
    _case("reacts to something else", one(two_groups(contains=("nuts",)), reacts_to=("milk",))),
    _case("reacts, another rope", one(two_groups("r2", contains=("nuts",)), reacts_to=("nuts",))),
    replace(
        _case(
            "reacts, a guest of the same kitchen, which is forbidden by itself",
            one(guest_of(two_groups(contains=("nuts",)), "g2"), reacts_to=("nuts",)),
        ),
        solvable=False,
    ),
    _case("no other cook group", one(fed(contains=("milk",)), reacts_to=("nuts",))),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_rope_mates_share_the_lunch(case: RequestCase) -> None:
    """Each set of rope-mates with what somebody reacts to is told with how many eat it."""
    assert request_found(case.problem, RULE) == case.finds


def test_who_eats_what_is_named() -> None:
    """The words tell who reacts to what and who on the rope eats it."""
    (finding,) = told(CASES[2].problem, RULE)
    assert "m1 reacts severely to nuts" in finding.message
    assert "m2 eats lunches of night set meal of cook group g2" in finding.message
    assert "put m2 in cook group g1" in finding.instead
