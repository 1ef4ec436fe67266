"""The chances of a plan agree with closed forms and compare plans under the same weather."""

import numpy as np
import pytest

from solver.outlook.odds import Policy, Reserve, Shares, Step, difference, odds
from solver.outlook.storms import StormChance

N = 20_000
INDEPENDENT = (StormChance(share=0.2, mean_days=1 / 0.8),)
FAR = 60


def _close(shares: Shares, expected: float) -> bool:
    return abs(shares.chance - expected) <= 3 * float(np.sqrt(expected * (1 - expected) / N))


def _go_after(nights: int, **reserve: float) -> Policy:
    """So many days of travel out of one place, and a reserve there."""
    kept = {"food_nights": 4, "fuel_nights": 4, **reserve}
    return Policy(
        steps=tuple(Step(at=0, visits=(0,)) for _ in range(nights)),
        reserves=(Reserve(place=0, **kept),),  # type: ignore[arg-type]
    )


def test_waits_before_travel_are_negative_binomial():
    """At most 3 storms before the 7th calm day: sum of C(6+k, k) 0.8^7 0.2^k for k <= 3."""
    exact = sum(
        float(np.prod([(6 + i) / i for i in range(1, k + 1)])) * 0.8**7 * 0.2**k for k in range(4)
    )
    found = odds(_go_after(7, food_nights=3), INDEPENDENT, scenarios=N, seed=1, dates=FAR)
    assert _close(found.food, exact)
    assert found.food.chance < found.fuel.chance


def test_a_raided_cache_mixes_two_reserves():
    """With chance 0.1 only two nights are left: 0.9 F(4) + 0.1 F(2) for one step's wait."""

    def at_most(k: int) -> float:
        return 1 - 0.2 ** (k + 1)

    policy = _go_after(1, food_nights=1, fuel_nights=9, loss_chance=0.1, nights_if_lost=0)
    found = odds(policy, INDEPENDENT, scenarios=N, seed=12, dates=FAR)
    assert _close(found.food, 0.9 * at_most(1) + 0.1 * at_most(0))
    assert _close(found.fuel, 0.9 * at_most(9) + 0.1 * at_most(0))


def test_the_summit_is_late_by_the_nights_waited():
    """With one spare day the summit holds where at most one of its two approaches is stormy."""
    policy = Policy(steps=(Step(0, (0,)), Step(0, (0,))), reserves=(), summit_step=1, spare_days=1)
    found = odds(policy, INDEPENDENT, scenarios=N, seed=3, dates=FAR)
    assert found.summit is not None
    assert _close(found.summit, 0.8**2 * (1 + 2 * 0.2))


def test_spare_days_make_up_for_waits():
    """A spare day at the place takes one storm night off its reserve and off the delay."""
    policy = Policy(
        steps=(Step(0, (0,)), Step(0, spare=True), Step(0, (0,))),
        reserves=(Reserve(0, 0, 0),),
        summit_step=2,
    )
    found = odds(policy, INDEPENDENT, scenarios=N, seed=4, dates=FAR)
    # No wait on the third step, and at most one, made up for, on the first.
    assert found.summit is not None
    assert _close(found.summit, 0.8 * (0.8 + 0.2 * 0.8))
    assert found.food == found.summit


def test_spoilt_sets_use_up_the_reserve():
    """At most 2 of 40 sets spoilt at 3 %, in calm weather: the binomial sum 0.8821711335."""
    policy = Policy(
        steps=(Step(0, (0,)),),
        reserves=(Reserve(0, 1, 1, people=2, planned_sets=38, spoilt_chance=0.03),),
    )
    calm = (StormChance(share=0.0, mean_days=1.0),)
    found = odds(policy, calm, scenarios=N, seed=21, dates=9)
    assert _close(found.food, 0.8821711335)
    assert found.fuel.chance == 1


def test_storms_and_spoilt_sets_share_one_reserve():
    """One night in reserve for one person and one planned set: no wait and one spoilt, or none."""
    policy = Policy(
        steps=(Step(0, (0,)),), reserves=(Reserve(0, 1, 9, planned_sets=1, spoilt_chance=0.1),)
    )
    found = odds(policy, INDEPENDENT, scenarios=N, seed=22, dates=FAR)
    none, one = 0.9**2, 2 * 0.9 * 0.1
    assert _close(found.food, 0.8 * (none + one) + 0.2 * 0.8 * none)


def test_a_slow_leg_costs_days_like_a_storm():
    """Seven days over a leg that is slow one day in five: the negative binomial sum again."""
    exact = sum(
        float(np.prod([(6 + i) / i for i in range(1, k + 1)])) * 0.8**7 * 0.2**k for k in range(4)
    )
    steps = tuple(Step(at=0, visits=(0,), legs=(1,)) for _ in range(7))
    policy = Policy(steps, (Reserve(0, 3, 9),))
    calm = (StormChance(share=0.0, mean_days=1.0),)
    found = odds(policy, calm, scenarios=N, seed=23, dates=FAR, slow=(0.0, 0.2))
    assert _close(found.food, exact)
    other_leg = odds(policy, calm, scenarios=1000, seed=23, dates=FAR, slow=(0.2, 0.0))
    assert other_leg.food.chance == 1


def test_two_plans_are_compared_under_the_same_weather():
    """One night more of reserve helps by P(exactly one more); paired, the error is smaller."""
    three = odds(_go_after(7, food_nights=3), INDEPENDENT, scenarios=N, seed=5, dates=FAR)
    four = odds(_go_after(7, food_nights=4), INDEPENDENT, scenarios=N, seed=5, dates=FAR)
    gain, error = difference(four, three)
    assert gain == pytest.approx(four.everything.chance - three.everything.chance)
    assert abs(gain - 210 * 0.8**7 * 0.2**4) <= 3 * error
    apart = np.hypot(four.everything.standard_error, three.everything.standard_error)
    assert error < 0.8 * float(apart)


def test_the_same_seed_gives_the_same_odds():
    """A seed settles everything."""
    one = odds(_go_after(5), INDEPENDENT, scenarios=2000, seed=6, dates=FAR)
    assert odds(_go_after(5), INDEPENDENT, scenarios=2000, seed=6, dates=FAR).food == one.food
    assert odds(_go_after(5), INDEPENDENT, scenarios=2000, seed=7, dates=FAR).food != one.food


def test_who_still_waits_at_the_end_has_failed():
    """With storm nearly every day nobody comes to the end of ten dates."""
    always = (StormChance(share=0.999, mean_days=1000, stormy_before=True),)
    found = odds(_go_after(3), always, scenarios=1000, seed=8, dates=10)
    assert found.food.chance < 0.05
    low, high = Shares(0, 1000).interval()
    assert low == pytest.approx(0, abs=1e-12)
    assert 0 < high < 0.005
