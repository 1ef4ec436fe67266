"""Menu varied: no dinner comes again before the third night.

For each night set with k dinners in turn, eaten on nights d1 < d2 < ...: d(i + k) - d(i) >=
`dinner_again_nights` for every i. The amount is how many dinners come too soon. A planner's
account repeats a dinner every third or fourth night; people stop eating what bores them.

Documents: mountaineering-textbook, polar-daily-bags.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.menus import different_sets, set_where, set_words, sets_eaten
from solver.plan import Finding

RULE = "menu_varied"


def menu_varied(facts: Facts) -> Iterator[Finding]:
    """Night sets with too few dinners in turn."""
    apart = facts.problem.rules.whole("dinner_again_nights")
    uses = sets_eaten(facts)
    for night_set in different_sets(uses):
        kinds = night_set.dinner_kinds
        if kinds is None:
            continue
        days = sorted(day for use in uses if use.night_set == night_set for day in use.days)
        soon = [
            later for day, later in zip(days, days[kinds:], strict=False) if later - day < apart
        ]
        if soon:
            yield Finding(
                RULE,
                f"{set_words(night_set)} has {kinds} dinners in turn, so {len(soon)} come again "
                f"less than {apart} nights later, first on day {soon[0]}",
                len(soon),
                "dinners",
                (("day", soon[0]), *set_where(night_set)),
                (f"pack {apart} different dinners in turn",),
            )
