"""Fuel containers and bags for more people or days than the given counts were meant for."""

from __future__ import annotations

from dataclasses import replace

from solver.problem import Problem
from solver.problem.faults import examine

_TOO_FEW = frozenset({"too_few_bags", "too_few_containers"})


def gives_counts(problem: Problem) -> bool:
    """Whether a number of containers or bags is given, so that it may be too small."""
    containers = [c.count for group in problem.cook_groups for c in group.containers]
    counts = [*containers, *(night_set.bag_count for night_set in problem.night_sets)]
    return any(count is not None for count in counts)


def with_enough(problem: Problem) -> Problem:
    """The problem, with as many containers and bags as it needs where too few are given.

    It stays as it is where anything else is wrong with it, and on the way, where nobody can buy.
    """
    if problem.history is not None or not gives_counts(problem):
        return problem
    faults, _ = examine(problem)
    if {fault.code for fault in faults} - _TOO_FEW:
        return problem
    places = {fault.where for fault in faults}
    groups = tuple(
        replace(
            group,
            containers=tuple(
                replace(c, count=None)
                if ("cook_groups", index, "containers", number, "count") in places
                else c
                for number, c in enumerate(group.containers)
            ),
        )
        for index, group in enumerate(problem.cook_groups)
    )
    night_sets = tuple(
        replace(one, bag_count=None) if ("night_sets", index, "bag_count") in places else one
        for index, one in enumerate(problem.night_sets)
    )
    return replace(problem, cook_groups=groups, night_sets=night_sets)
