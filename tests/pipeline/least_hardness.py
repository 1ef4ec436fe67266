"""How hard the trips of a tiny world must be, by exhaustive search over everything."""

from __future__ import annotations

import numpy as np

from solver.problem import Problem
from tests.pipeline.exhaustive import Search
from tests.pipeline.least_load import NEVER

BEGINS = (9_000, 9_200, 9_400, 9_600, 9_800)
COUNTS = (1, 2, 4, 8, 16)


class HardnessSearch(Search):
    """The same distributions, with what the trips count above 90 % for what is least."""

    def counted(self, so_far: np.ndarray, fractions: np.ndarray, within: int) -> np.ndarray:
        """The sum with one trip more, NEVER where it is above a peak."""
        more = np.zeros_like(fractions)
        for begin, counts in zip(BEGINS, COUNTS, strict=True):
            wide = 10_000 if counts == 16 else 200
            more += counts * np.clip(fractions - begin, 0, wide)
        return np.where((fractions > within) | (so_far >= NEVER), NEVER, so_far + more)


def least_hardness(problem: Problem, peak: int) -> int | None:
    """The least that the trips of any plan with no higher peak count, None without a plan."""
    search = HardnessSearch(problem)
    return None if search.stories.impossible else search.run(peak)
