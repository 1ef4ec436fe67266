"""Lunch needs no cooking: what is eaten between camps is eaten as it is.

For each night set given as having a lunch that needs cooking: no member of its cook group travels
on a day after a night with that set. The amount is how many such days there are.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.menus import different_sets, set_where, set_words, sets_eaten
from solver.plan import Finding

RULE = "lunch_needs_no_cooking"


def lunch_needs_no_cooking(facts: Facts) -> Iterator[Finding]:
    """Travel days whose lunch would have to be cooked on the way."""
    uses = sets_eaten(facts)
    for night_set in different_sets(uses):
        if not night_set.lunch_needs_cooking:
            continue
        eaters = {p.person_id for p in facts.problem.members(night_set.cook_group_id)}
        travel = {t.day for t in facts.timeline.trips if not eaters.isdisjoint(t.person_ids)}
        days = [d + 1 for use in uses if use.night_set == night_set for d in use.days]
        walked = sorted(day for day in days if day in travel)
        if walked:
            yield Finding(
                RULE,
                f"the lunch of {set_words(night_set)} needs cooking, and is eaten on the way on "
                f"{len(walked)} days, first on day {walked[0]}",
                len(walked),
                "days",
                (("day", walked[0]), *set_where(night_set)),
                ("pack a lunch that is eaten as it is, frozen too",),
            )
