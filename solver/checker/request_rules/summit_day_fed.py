"""Summit day fed: on summit day each person carries water and a lunch for a long day.

For each person on a day that visits a summit: water carried >= `summit_water_g`, which is
`summit_water_g` of the person where given, else `water_g`; and for the set eaten the night
before, where it is given: lunch_kcal >= `summit_lunch_kcal`. The amount is what is missing, in
grams a person and in kilocalories a set.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.menus import set_where, set_words
from solver.checker.queries.summits import summit_days
from solver.plan import Finding

RULE = "summit_day_fed"


def summit_day_fed(facts: Facts) -> Iterator[Finding]:
    """Water and lunch that summit days lack."""
    problem = facts.problem
    days = summit_days(facts)
    least_g = problem.rules.whole("summit_water_g")
    for person in problem.roster:
        own_g = person.water_g if person.summit_water_g is None else person.summit_water_g
        first = next((d for d, people in days.items() if person.person_id in people), None)
        if first is not None and own_g < least_g:
            yield Finding(
                RULE,
                f"{person.person_id} carries {own_g} g of water on day {first}, which visits a "
                f"summit; {least_g} g is the least",
                least_g - own_g,
                "g",
                (("day", first), ("person", person.person_id)),
                (f"state summit water of {least_g} g for {person.person_id}, hot in a flask",),
            )
    yield from _lunches(facts, days)


def _lunches(facts: Facts, days: dict[int, frozenset[str]]) -> Iterator[Finding]:
    least = facts.problem.rules.whole("summit_lunch_kcal")
    found: set[str] = set()
    for meal in facts.meals:
        night_set, day = meal.night_set, meal.day + 1
        eaters = {p.person_id for p in facts.problem.members(meal.cook_group_id)}
        energy = night_set.lunch_kcal
        if energy is None or energy >= least or night_set.unit_id in found:
            continue
        if not eaters.isdisjoint(days.get(day, frozenset())):
            found.add(night_set.unit_id)
            yield Finding(
                RULE,
                f"the lunch of {set_words(night_set)} has {energy} kcal and is eaten on day {day}, "
                f"which visits a summit; {least} kcal is the least",
                least - energy,
                "kcal",
                (("day", day), *set_where(night_set)),
                (f"put {least - energy} kcal more that needs no cooking into the lunch",),
            )
