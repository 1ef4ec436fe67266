"""Who has the least cap, and is to carry less of what others can carry."""

from __future__ import annotations

from solver.problem import Person, Problem


def weakest(problem: Problem) -> frozenset[str]:
    """Who has the least pack cap, or load limit where that is less; nobody where all have it."""
    least = min(map(_least_cap, problem.roster), default=0)
    found = frozenset(p.person_id for p in problem.roster if _least_cap(p) == least)
    return found if len(found) < len(problem.roster) else frozenset()


def _least_cap(person: Person) -> int:
    return min(person.caps.pack_g, person.load_limit_g or person.caps.pack_g)
