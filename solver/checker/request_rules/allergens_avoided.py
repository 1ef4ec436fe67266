"""Allergens avoided: nobody's cook group eats or holds what that person must not eat.

For each person p and each night set s that p's cook group eats or holds as a reserve:
(avoids of p + reacts_to of p) and contains of s have nothing in common. For each set of others who
eat from the same kitchen: reacts_to of p and contains of s have nothing in common. The amount is
how many allergens they have in common. Whether anything is severe is for the person and a
physician.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.menus import different_sets, set_where, set_words, sets_used
from solver.plan import Finding

RULE = "allergens_avoided"


def allergens_avoided(facts: Facts) -> Iterator[Finding]:
    """Night sets with something that one of their eaters must not eat."""
    sets = tuple(different_sets(sets_used(facts)))
    kitchen_of = {g.cook_group_id: g.kitchen_id for g in facts.problem.cook_groups}
    for person in facts.problem.roster:
        for night_set in sets:
            if kitchen_of[night_set.cook_group_id] != kitchen_of[person.cook_group_id]:
                continue
            eats_it = night_set.cook_group_id == person.cook_group_id
            avoided = dict.fromkeys((*(person.avoids if eats_it else ()), *person.reacts_to))
            common = [word for word in avoided if word in night_set.contains]
            if common:
                what = " and ".join(common)
                why = "must not eat" if eats_it else "reacts severely in the same kitchen to"
                yield Finding(
                    RULE,
                    f"{person.person_id} {why} {what}, and {set_words(night_set)} contains it",
                    len(common),
                    "allergens",
                    (("person", person.person_id), *set_where(night_set)),
                    (
                        f"give cook group {night_set.cook_group_id} a menu without {what}",
                        f"put {person.person_id} in a cook group whose menu has no {what}",
                    ),
                )
