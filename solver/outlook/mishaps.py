"""What goes wrong besides storms, by chance: reserves lost, night sets spoilt, legs that are slow.

Each has a stream of its own, so that asking for one of them does not change what the others draw.
Sets are drawn one by one and legs by date, whatever the party does: two plans that are compared
meet the same luck. Scenarios are drawn in blocks, as storms are.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from solver.outlook.storms import BLOCK

_LOST, _SPOILT, _SLOW = 2, 3, 4
"""The last number of each stream's seed; storms use fewer numbers, and 1."""


def draw_lost(seed: int, number: int, chance: float, scenarios: int) -> NDArray[np.bool_]:
    """Whether a reserve is lost (scenarios,)."""
    sequence = np.random.SeedSequence([seed, number, _LOST])
    lost: NDArray[np.bool_] = np.random.default_rng(sequence).random(scenarios) < chance
    return lost


def draw_spoilt(
    seed: int, number: int, chance: float, sets: int, scenarios: int
) -> NDArray[np.int64]:
    """How many of so many sets of a place are spoilt, each by itself (scenarios,).

    More sets leave those before them as they were.
    """
    spoilt = np.zeros(scenarios, dtype=np.int64)
    if chance <= 0 or sets <= 0:
        return spoilt
    for block in range(-(-scenarios // BLOCK)):
        sequence = np.random.SeedSequence([seed, number, _SPOILT, block])
        drawn = np.random.default_rng(sequence).random((sets, BLOCK)) < chance
        begin = block * BLOCK
        spoilt[begin : begin + BLOCK] = drawn.sum(axis=0)[: scenarios - begin]
    return spoilt


def draw_slow(
    chances: tuple[float, ...], *, dates: int, scenarios: int, seed: int
) -> NDArray[np.bool_]:
    """Whether nobody gets over a leg: by scenario, leg and date (scenarios, legs, dates)."""
    slow = np.zeros((scenarios, len(chances), dates), dtype=np.bool_)
    for leg, chance in enumerate(chances):
        for block in range(-(-scenarios // BLOCK) if chance > 0 else 0):
            sequence = np.random.SeedSequence([seed, leg, _SLOW, block])
            drawn = np.random.default_rng(sequence).random((BLOCK, dates)) < chance
            begin = block * BLOCK
            slow[begin : begin + BLOCK, leg] = drawn[: scenarios - begin]
    return slow
