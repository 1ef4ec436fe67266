"""Diet kept: every night set of a person's cook group suits that person's diet.

For each person p with a diet and each night set s that p's cook group eats or holds as a
reserve: diet of p is among diets of s. A set whose diets are not given suits none. The amount is
1 a person and set.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.menus import different_sets, set_where, set_words, sets_used
from solver.plan import Finding

RULE = "diet_kept"


def diet_kept(facts: Facts) -> Iterator[Finding]:
    """Night sets that do not suit the diet of one of their eaters."""
    sets = tuple(different_sets(sets_used(facts)))
    for person in facts.problem.roster:
        for night_set in sets:
            theirs = night_set.cook_group_id == person.cook_group_id
            if person.diet is None or not theirs or person.diet in night_set.diets:
                continue
            yield Finding(
                RULE,
                f"{person.person_id} keeps a {person.diet} diet, which {set_words(night_set)} is "
                "not said to suit",
                1,
                "sets",
                (("person", person.person_id), *set_where(night_set)),
                (
                    f"say that the set suits a {person.diet} diet, where it does",
                    f"give cook group {person.cook_group_id} a {person.diet} menu",
                    f"give {person.person_id} alone a {person.diet} menu from the same kitchen",
                ),
            )
