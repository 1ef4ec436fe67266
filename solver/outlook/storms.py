"""Storm nights by chance: at each place on each date, with storms that last.

A place's weather is a Markov chain of two states. A calm day is followed by storm with chance a,
a storm day by calm with chance b. From the share of storm days pi and their mean length L:

    b = 1 / L,   a = pi b / (1 - pi)

Source: W. Feller, "An Introduction to Probability Theory and Its Applications", Wiley, 1968,
volume I, chapter XV (two-state chains), from memory; the tests hold it against closed forms.

Storms are kept by place and date, whatever the party does: two plans that are compared meet the
same weather. Scenarios are drawn in blocks of fixed size with a seed each, so neither the number
of scenarios nor who draws them changes the first ones.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

BLOCK = 1000
"""Scenarios that one seed draws."""


class StormChanceError(ValueError):
    """A share of storm days and a mean length that no weather can have."""


@dataclass(frozen=True, slots=True)
class StormChance:
    """The weather of one place: `share` of days with storm, in runs of `mean_days` on average.

    `stormy_before` is what was seen on the eve of the first date, None where nothing is known:
    then the chain begins with its share. Without persistence `mean_days` is 1 / (1 - share).
    """

    share: float
    mean_days: float
    stormy_before: bool | None = None

    def __post_init__(self) -> None:
        """Refuse what no chain can have; StormChanceError says why."""
        if not 0 <= self.share < 1:
            raise StormChanceError("the share of storm days is from 0 to below 1")
        if self.mean_days < 1:
            raise StormChanceError("a storm lasts at least 1 day on average")
        if self.begins > 1:
            raise StormChanceError(
                f"storms of {self.mean_days:g} days on average cannot fill {self.share:.0%} of the "
                f"days: they last at least {self.share / (1 - self.share):.3g} days then"
            )

    @property
    def ends(self) -> float:
        """Chance that the day after a storm day is calm [1]."""
        return 1 / self.mean_days

    @property
    def begins(self) -> float:
        """Chance that the day after a calm day has storm [1]."""
        return self.share * self.ends / (1 - self.share)


def draw_storms(
    chances: tuple[StormChance, ...], *, dates: int, scenarios: int, seed: int
) -> NDArray[np.bool_]:
    """Whether there is storm: by scenario, place and date (scenarios, places, dates)."""
    blocks = -(-scenarios // BLOCK)
    drawn = np.concatenate(
        [_uniform(seed, block, (BLOCK, len(chances), dates)) for block in range(blocks)]
    )[:scenarios]
    storms = np.zeros(drawn.shape, dtype=np.bool_)
    for place, chance in enumerate(chances):
        before = (
            np.full(scenarios, chance.stormy_before)
            if chance.stormy_before is not None
            else _begin(seed, place, scenarios) < chance.share
        )
        for date in range(dates):
            likely = np.where(before, 1 - chance.ends, chance.begins)
            before = drawn[:, place, date] < likely
            storms[:, place, date] = before
    return storms


def _uniform(seed: int, block: int, shape: tuple[int, ...]) -> NDArray[np.float64]:
    return np.random.default_rng(np.random.SeedSequence([seed, block])).random(shape)


def _begin(seed: int, place: int, scenarios: int) -> NDArray[np.float64]:
    """What settles the weather on the eve, from a stream of its own (scenarios,)."""
    sequence = np.random.SeedSequence([seed, place, 1])
    return np.random.default_rng(sequence).random(scenarios)
