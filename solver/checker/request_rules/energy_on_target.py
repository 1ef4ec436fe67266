"""Energy on target: a night set has the energy that its elevation, or a storm day, asks for.

For each night set at each place where it is eaten or held, with its energy given:
energy_kcal >= `low_energy_kcal` below `middle_from_m`, `middle_energy_kcal` from there,
`high_energy_kcal` from `high_from_m`, and `storm_energy_kcal` for a storm set anywhere. The
amount is the most that is missing, one finding a set. By default the target falls no further from
`high_from_m` on: the need does not fall there, only appetite does, and that is judged elsewhere.

Documents: cold-manual, mountaineering-textbook, appetite-high, health-manual.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.menus import SetAt, different_sets, sets_used
from solver.plan import Finding
from solver.problem import RuleSettings

RULE = "energy_on_target"


def energy_on_target(facts: Facts) -> Iterator[Finding]:
    """Night sets with less energy than one of their places asks for."""
    rules = facts.problem.rules
    uses = sets_used(facts)
    for night_set in different_sets(uses):
        energy = night_set.energy_kcal
        if energy is None:
            continue
        theirs = [use for use in uses if use.night_set == night_set]
        worst = max(theirs, key=lambda use: _target(use, rules))
        missing = _target(worst, rules) - energy
        if missing > 0:
            yield Finding(
                RULE,
                f"{worst.words}, {worst.place.elevation_m} m, has {energy} kcal for a day, "
                f"{_target(worst, rules)} kcal is the target there",
                missing,
                "kcal",
                worst.where,
                (f"put {missing} kcal more into the set",),
            )


def _target(use: SetAt, rules: RuleSettings) -> int:
    """What a day's food at that elevation should have [kcal]."""
    if use.night_set.storm:
        return rules.whole("storm_energy_kcal")
    if use.place.elevation_m >= rules.whole("high_from_m"):
        return rules.whole("high_energy_kcal")
    if use.place.elevation_m >= rules.whole("middle_from_m"):
        return rules.whole("middle_energy_kcal")
    return rules.whole("low_energy_kcal")
