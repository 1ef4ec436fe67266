"""Who is to carry less of what others can carry."""

from __future__ import annotations

from solver.problem import Problem
from solver.problem.weakest import weakest_of


def weakest(problem: Problem) -> frozenset[str]:
    """Who has the least cap; nobody where all have it."""
    return weakest_of(problem.roster)
