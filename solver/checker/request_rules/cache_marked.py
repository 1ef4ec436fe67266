"""Cache marked: each cache has its poles, and there are poles for all caches at once.

For each place that is left alone and whose poles are given: poles >= `poles_per_cache`. Where
marker poles are listed: their count >= on each night the poles given, `poles_per_cache` where
none are, summed over places that are meant to hold a cache that night. The amount is in poles.

Documents: peak-dispatches.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.left_alone import MARKS, LeftAlone, read_left_alone
from solver.checker.queries.listed_gear import listed_items
from solver.plan import Finding

RULE = "cache_marked"


def cache_marked(facts: Facts) -> Iterator[Finding]:
    """Poles that single caches lack, and that the whole trip lacks on its worst night."""
    least = facts.problem.rules.whole("poles_per_cache")
    alone = read_left_alone(facts)
    for left in alone:
        poles = left.cache.poles
        if poles is not None and poles < least:
            place = left.place.place_id
            yield Finding(
                RULE,
                f"the cache at {place} is given as having {poles} poles, {least} are the least",
                least - poles,
                "poles",
                (("place", place),),
                (f"mark the cache at {place} with {least} poles",),
            )
    listed = [item.count for purpose in MARKS for item in listed_items(facts, purpose)]
    if listed:
        yield from _too_few(facts, alone, sum(listed), least)


def _too_few(
    facts: Facts, alone: tuple[LeftAlone, ...], listed: int, least: int
) -> Iterator[Finding]:
    worst: tuple[int, int, list[str]] = (listed, 0, [])
    for night in facts.timeline.nights:
        here = [left for left in alone if night.day in left.meant]
        needed = sum(least if c.cache.poles is None else max(c.cache.poles, least) for c in here)
        if needed > worst[0]:
            worst = (needed, night.day, [left.place.place_id for left in here])
    needed, day, places = worst
    if needed > listed:
        yield Finding(
            RULE,
            f"night of day {day}: {needed} poles are needed for caches at "
            f"{', '.join(places)}, {listed} are listed",
            needed - listed,
            "poles",
            (("day", day), ("place", places[0])),
            (
                f"list {needed - listed} more marker poles or wands",
                "fetch a cache before the next is made",
            ),
        )
