"""Energy floor held: no night set has less energy than anybody gets by on.

For each night set that is eaten or held as a reserve and whose energy is given:
energy_kcal >= `least_energy_kcal`, for storm sets too: a set is a person's food for a whole day.
The amount is what is missing. What the elevation and the work ask for is `energy_on_target`.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.menus import different_sets, set_where, set_words, sets_used
from solver.plan import Finding

RULE = "energy_floor_held"


def energy_floor_held(facts: Facts) -> Iterator[Finding]:
    """Night sets on which nobody gets through a day."""
    least = facts.problem.rules.whole("least_energy_kcal")
    for night_set in different_sets(sets_used(facts)):
        energy = night_set.energy_kcal
        if energy is not None and energy < least:
            yield Finding(
                RULE,
                f"{set_words(night_set)} has {energy} kcal for a day, {least} kcal is the least",
                least - energy,
                "kcal",
                set_where(night_set),
                (f"put at least {least - energy} kcal more into the set",),
            )
