"""Food facts missing: what the request does not say of its food and water, so it is not checked.

Of each night set that is eaten or held: energy. Of each that is eaten: whether it simmers, how
many dinners it has in turn, whether its lunch needs cooking, and the lunch's energy where
it is eaten on a day that visits a summit. Of the whole: water melted and boiled. The amount is how
many sets lack the fact; one finding for each kind of fact.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.menus import different_sets, sets_eaten, sets_used
from solver.checker.queries.summits import summit_days
from solver.plan import Finding
from solver.problem import NightSet

RULE = "food_facts_missing"


def food_facts_missing(facts: Facts) -> Iterator[Finding]:
    """Facts of food that are not given, kind by kind."""
    eaten = tuple(different_sets(sets_eaten(facts)))
    yield from _missing(
        "the energy", different_sets(sets_used(facts)), lambda s: s.energy_kcal is None
    )
    yield from _missing("whether dinner simmers", eaten, lambda s: s.simmers is None)
    yield from _missing("how many dinners come in turn", eaten, lambda s: s.dinner_kinds is None)
    yield from _missing(
        "whether the lunch needs cooking", eaten, lambda s: s.lunch_needs_cooking is None
    )
    yield from _missing(
        "the energy of the lunch on a day to a summit",
        _eaten_on_summit_days(facts),
        lambda s: s.lunch_kcal is None,
    )
    conditions = facts.problem.conditions
    if eaten and (conditions.melted_l is None or conditions.boiled_l is None):
        yield Finding(
            RULE,
            "how much water is melted and boiled for a person and day is not given, so whether it "
            "is enough has not been checked",
            1,
            "facts",
            (),
            ("give the litres melted and the litres boiled",),
        )


def _eaten_on_summit_days(facts: Facts) -> list[NightSet]:
    days = summit_days(facts)
    sets: dict[str, NightSet] = {}
    for meal in facts.meals:
        eaters = {p.person_id for p in facts.problem.members(meal.cook_group_id)}
        if not eaters.isdisjoint(days.get(meal.day + 1, frozenset())):
            sets[meal.night_set.unit_id] = meal.night_set
    return list(sets.values())


def _missing(
    what: str, sets: Iterable[NightSet], lacks: Callable[[NightSet], bool]
) -> Iterator[Finding]:
    names = [night_set.unit_id for night_set in sets if lacks(night_set)]
    if names:
        yield Finding(
            RULE,
            f"{what} is not given of {', '.join(names)}, so it is not checked",
            len(names),
            "sets",
            (("set", names[0]),),
            (f"give {what}",),
        )
