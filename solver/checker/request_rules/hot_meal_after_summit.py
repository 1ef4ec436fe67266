"""Hot meal after summit: the night after a summit, one fit person can make a hot meal.

For each cook group with a member who visits a summit on day d: the set eaten that night is not
given as simmering. The amount is the nights with such a set, one finding a set and place.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.menus import sets_eaten
from solver.checker.queries.summits import summit_days
from solver.plan import Finding

RULE = "hot_meal_after_summit"


def hot_meal_after_summit(facts: Facts) -> Iterator[Finding]:
    """Sets that simmer, planned for people who come back from a summit."""
    days = summit_days(facts)
    for use in sets_eaten(facts):
        members = {p.person_id for p in facts.problem.members(use.night_set.cook_group_id)}
        tired = [d for d in use.days if not members.isdisjoint(days.get(d, frozenset()))]
        if tired and use.night_set.simmers:
            yield Finding(
                RULE,
                f"{use.words} simmers, and is planned for people back from a summit on day "
                f"{tired[0]}",
                len(tired),
                "nights",
                (("day", tired[0]), *use.where),
                ("leave a set there that only needs boiling water",),
            )
