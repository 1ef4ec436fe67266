"""Who has the least cap, and is to carry less of what others can carry."""

from __future__ import annotations

from collections.abc import Sequence

from solver.problem.roster import Person


def weakest_of(roster: Sequence[Person]) -> frozenset[str]:
    """Who has the least pack cap, or load limit where that is less; nobody where all have it."""
    least = min(map(least_cap_g, roster), default=0)
    found = frozenset(p.person_id for p in roster if least_cap_g(p) == least)
    return found if len(found) < len(roster) else frozenset()


def least_cap_g(person: Person) -> int:
    """The most that somebody may carry in a pack, or in all where a limit says less [g]."""
    return min(person.caps.pack_g, person.load_limit_g or person.caps.pack_g)
