"""Drawn storms agree with closed forms, and the draw is the same whoever asks for how much."""

import numpy as np
import pytest

from solver.outlook.storms import BLOCK, StormChance, StormChanceError, draw_storms

N = 40_000


def _within_three(share: float, expected: float, n: int = N) -> bool:
    return abs(share - expected) <= 3 * float(np.sqrt(expected * (1 - expected) / n))


def test_independent_nights_are_binomial():
    """Ten nights at 0.2: at most 3 storms with 0.8791261184 (binomial distribution)."""
    chance = StormChance(share=0.2, mean_days=1 / 0.8)
    storms = draw_storms((chance,), dates=10, scenarios=N, seed=1)[:, 0].sum(axis=1)
    assert _within_three(float((storms <= 3).mean()), 0.8791261184)
    assert _within_three(float((storms <= 4).mean()), 0.9672065024)


def test_storms_that_last_follow_the_chain():
    """Begin 0.2, end 0.4, calm on the eve: storm on night 10 and few storms as the chain says.

    P(storm on night n) = pi (1 - l^n), l = 1 - a - b = 0.4, gives 0.3332983808; at most three of
    ten 0.6016729088, by the chain's generating recursion; no run of three 0.5991841792.
    """
    chance = StormChance(share=1 / 3, mean_days=2.5, stormy_before=False)
    assert chance.begins == pytest.approx(0.2)
    storms = draw_storms((chance,), dates=10, scenarios=N, seed=2)[:, 0]
    assert _within_three(float(storms[:, 9].mean()), 0.3332983808)
    few = float((storms.sum(axis=1) <= 3).mean())
    assert _within_three(few, 0.6016729088)
    assert not _within_three(few, 0.5593), "independent nights would give another chance"
    run = storms[:, :-2] & storms[:, 1:-1] & storms[:, 2:]
    assert _within_three(float((~run.any(axis=1)).mean()), 0.5991841792)


def test_the_mean_of_storm_nights():
    """E = n pi - pi l (1 - l^n) / (1 - l) = 3.1111344128 for the same chain."""
    chance = StormChance(share=1 / 3, mean_days=2.5, stormy_before=False)
    counts = draw_storms((chance,), dates=10, scenarios=N, seed=3)[:, 0].sum(axis=1)
    error = counts.std() / np.sqrt(N)
    assert abs(counts.mean() - 3.1111344128) <= 3 * error


def test_more_scenarios_leave_the_first_as_they_are():
    """The first scenarios of a longer draw are those of a shorter one."""
    chances = (StormChance(0.2, 2), StormChance(0.4, 3))
    few = draw_storms(chances, dates=7, scenarios=BLOCK // 2, seed=4)
    many = draw_storms(chances, dates=7, scenarios=2 * BLOCK + 1, seed=4)
    assert (many[: BLOCK // 2] == few).all()


def test_without_a_word_of_the_eve_the_chain_begins_with_its_share():
    """Every date has storm with the share, the first one, too."""
    storms = draw_storms((StormChance(0.3, 4),), dates=3, scenarios=N, seed=5)[:, 0]
    for date in range(3):
        assert _within_three(float(storms[:, date].mean()), 0.3)


@pytest.mark.parametrize(
    ("share", "mean_days", "says"),
    [(1.0, 2, "below 1"), (-0.1, 2, "from 0"), (0.3, 0.5, "at least 1 day"), (0.9, 2, "9 days")],
)
def test_impossible_weather_is_refused(share: float, mean_days: float, says: str):
    """A share with too short storms cannot be: a calm day would begin a storm surely and more."""
    with pytest.raises(StormChanceError, match=says):
        StormChance(share, mean_days)
