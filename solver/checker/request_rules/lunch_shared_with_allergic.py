"""Lunch shared with allergic: who ropes up with a person who reacts severely eats none of it.

For each person p with reacts_to and each night set s eaten by people of p's rope team from
another kitchen: reacts_to of p and contains of s have nothing in common. The amount is how
many rope-mates eat the set. The own kitchen is held to more by `allergens_avoided`.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.menus import different_sets, set_where, set_words, sets_eaten
from solver.plan import Finding

RULE = "lunch_shared_with_allergic"


def lunch_shared_with_allergic(facts: Facts) -> Iterator[Finding]:
    """Night sets of rope-mates with something to which a person reacts severely."""
    sets = tuple(different_sets(sets_eaten(facts)))
    kitchen_of = {g.cook_group_id: g.kitchen_id for g in facts.problem.cook_groups}
    for person in facts.problem.roster:
        for night_set in sets:
            common = [word for word in person.reacts_to if word in night_set.contains]
            mates = [
                mate.person_id
                for mate in facts.problem.members(night_set.cook_group_id)
                if mate.rope_team_id == person.rope_team_id
            ]
            elsewhere = kitchen_of[night_set.cook_group_id] != kitchen_of[person.cook_group_id]
            if common and mates and elsewhere:
                what = " and ".join(common)
                yield Finding(
                    RULE,
                    f"{person.person_id} reacts severely to {what}, and on the same rope "
                    f"{', '.join(mates)} eats lunches of {set_words(night_set)}, which contains it",
                    len(mates),
                    "people",
                    (("person", person.person_id), *set_where(night_set)),
                    (
                        f"give rope team {person.rope_team_id} lunches without {what}",
                        f"put {', '.join(mates)} in cook group {person.cook_group_id}",
                    ),
                )
