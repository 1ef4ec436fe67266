"""Worlds whose legs say more: angles, traverses, modes."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from solver.problem import Problem


def with_legs(problem: Problem, **said: Any) -> Problem:
    """The problem with something said of every leg."""
    legs = tuple(replace(leg, **said) for leg in problem.route.legs)
    return replace(problem, route=replace(problem.route, legs=legs))


def with_first_leg(problem: Problem, **said: Any) -> Problem:
    """The problem with something said of its first leg alone."""
    first, *others = problem.route.legs
    legs = (replace(first, **said), *others)
    return replace(problem, route=replace(problem.route, legs=legs))
