"""Policies are made from a plan's own calendar and reserves, and their odds from closed forms."""

from dataclasses import replace

import pytest

from solver.outlook.policies import odds_of, policy_of, what_reserves_buy
from solver.outlook.storms import StormChance
from solver.problem import (
    Calendar,
    Caps,
    CookGroup,
    Day,
    Leg,
    LegMode,
    NightSet,
    Person,
    Place,
    PlaceKind,
    Problem,
    Reserve,
    ReserveKind,
    Route,
    Visit,
)

N = 20_000
EACH = StormChance(share=0.2, mean_days=1 / 0.8)
"""A storm on one day in five, whatever came before."""


def _day(*places: str) -> Day:
    return Day((Visit(("r",), places),))


PROBLEM = Problem(
    route=Route(
        (
            Place("base", 1000, PlaceKind.ROAD_HEAD),
            Place("camp", 2000, PlaceKind.CAMP),
            Place("top", 3000, PlaceKind.SUMMIT),
        ),
        (
            Leg("a", "base", "camp", LegMode.PACK, 100, 100, ascent_m=1000),
            Leg("b", "camp", "top", LegMode.PACK, 100, 100, ascent_m=1000),
        ),
    ),
    calendar=Calendar(
        (_day("base", "camp"), _day("camp"), _day("camp", "top", "camp"), _day("camp", "base"))
    ),
    roster=(Person("p", Caps(20_000), 80_000, "r", "g"),),
    cook_groups=(CookGroup("g", (("camp", "n"),)),),
    night_sets=(NightSet("n", "g", 500, 0, 0, 1000, 0),),
    reserves=(Reserve("camp", "g", ReserveKind.STORM, 1, "n"),),
)
GROUP = PROBLEM.cook_groups[0]


def _close(shares, expected: float) -> bool:
    return abs(shares.chance - expected) <= 3 * (expected * (1 - expected) / N) ** 0.5


def test_calendar_spare_days_and_reserves_become_a_policy():
    """Four steps, the second spare, the summit on the third, one night held at the camp."""
    policy = policy_of(PROBLEM, GROUP)
    assert [(s.at, s.visits, s.spare) for s in policy.steps] == [
        (0, (1,), False),
        (1, (), True),
        (1, (2, 1), False),
        (1, (0,), False),
    ]
    assert (policy.summit_step, policy.spare_days) == (2, 1)
    assert [(r.place, r.food_nights) for r in policy.reserves] == [(1, 1)]


def test_storms_at_the_top_alone_hold_up_the_summit_day():
    """With storms at the top only, food holds with 1 - 0.2^2: one night is waited at most."""
    policy = policy_of(PROBLEM, GROUP)
    found = odds_of(PROBLEM, policy, {"top": EACH}, scenarios=N, seed=5)
    assert _close(found.food, 1 - 0.2**2)
    assert _close(found.summit, 1 - 0.2**2)


def test_one_more_night_buys_what_the_closed_form_says():
    """From one night to two: 0.2^2 - 0.2^3 for food, but the summit has one spare day."""
    policy = replace(policy_of(PROBLEM, GROUP), spare_days=9)
    (worth,) = what_reserves_buy(PROBLEM, policy, {"top": EACH}, scenarios=N, seed=5)
    assert worth.place_id == "camp"
    assert abs(worth.gain - (0.2**2 - 0.2**3)) <= 3 * worth.standard_error
    assert worth.standard_error < 0.002


def test_a_reserve_that_may_be_lost_mixes_both_cases():
    """Lost with chance 0.1, only days without a storm hold: 0.9 (1 - 0.04) + 0.1 (1 - 0.2)."""
    policy = policy_of(PROBLEM, GROUP, {"camp": 0.1})
    found = odds_of(PROBLEM, policy, {"top": EACH}, scenarios=N, seed=8)
    assert _close(found.food, 0.9 * 0.96 + 0.1 * 0.8)


def test_spoilt_sets_are_those_of_the_nights_at_their_place():
    """Three nights at the camp and one in reserve for one person: at most 1 of 4 sets spoilt."""
    policy = policy_of(PROBLEM, GROUP, spoilt_chances={"camp": 0.1})
    (reserve,) = policy.reserves
    assert (reserve.people, reserve.planned_sets, reserve.spoilt_chance) == (1, 3, 0.1)
    found = odds_of(PROBLEM, policy, {}, scenarios=N, seed=9)
    assert _close(found.food, 0.9**4 + 4 * 0.9**3 * 0.1)


def test_a_slow_leg_holds_up_the_days_that_use_it():
    """Only the summit day uses leg b; slow one day in five, one night is waited at most."""
    policy = policy_of(PROBLEM, GROUP)
    assert [step.legs for step in policy.steps] == [(0,), (), (1, 1), (0,)]
    found = odds_of(PROBLEM, policy, {}, scenarios=N, seed=10, slow={"b": 0.2})
    assert _close(found.food, 1 - 0.2**2)
    (worth,) = what_reserves_buy(PROBLEM, policy, {}, scenarios=N, seed=10, slow={"b": 0.2})
    assert worth.gain >= 0


def test_a_group_without_members_has_no_policy():
    """Nobody's calendar can be followed."""
    with pytest.raises(ValueError, match="no members"):
        policy_of(PROBLEM, replace(GROUP, cook_group_id="nobody"))
