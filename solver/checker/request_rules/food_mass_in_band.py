"""Food mass in band: a day's food weighs about what a day's food weighs.

For each night set that is eaten and no storm set: `least_food_g` <= gross_g <= `most_food_g`.
The amount is how far it is outside; most often a set so far off was written down wrongly.

Documents: mountaineering-textbook, outdoor-leader, backcountry-tips, polar-food-packing.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.menus import different_sets, set_where, set_words, sets_eaten
from solver.plan import Finding

RULE = "food_mass_in_band"


def food_mass_in_band(facts: Facts) -> Iterator[Finding]:
    """Night sets lighter or heavier than a day's food is in practice."""
    rules = facts.problem.rules
    least, most = rules.whole("least_food_g"), rules.whole("most_food_g")
    for night_set in different_sets(sets_eaten(facts)):
        gross = night_set.gross_g
        off = max(least - gross, gross - most)
        if off > 0 and not night_set.storm:
            yield Finding(
                RULE,
                f"{set_words(night_set)} weighs {gross} g, a day's food is {least} to {most} g",
                off,
                "g",
                set_where(night_set),
                ("weigh a packed set", "pack food with more or less energy in a gram"),
            )
