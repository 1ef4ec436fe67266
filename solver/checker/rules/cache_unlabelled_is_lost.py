"""Cache unlabelled is lost: others may take what is left without a name and a date on it.

For each place, not the start, where nobody sleeps on some night and that is not given as having a
label: units that stand there = 0. One finding a place; the amount is the most that stand there.
A published diary tells of a dispute over a cache that others had taken as given up.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.unattended import read_caches
from solver.plan import Finding

RULE = "cache_unlabelled_is_lost"


def cache_unlabelled_is_lost(replay: Replay) -> Iterator[Finding]:
    """Places where a plan leaves things that nobody has said will be labelled."""
    route = replay.facts.problem.route
    most: dict[str, tuple[int, int]] = {}
    for cache in read_caches(replay):
        site = route.place(cache.place_id).cache
        if site is not None and site.has_label:
            continue
        units = sum(cache.units.values())
        if units > most.get(cache.place_id, (0, 0))[0]:
            most[cache.place_id] = (units, cache.day)
    for place_id, (units, day) in most.items():
        yield Finding(
            RULE,
            f"{place_id}, night of day {day}: {units} units stand alone, and nobody has said "
            "that they are labelled: others may take them as given up",
            units,
            "units",
            (("day", day), ("place", place_id)),
        )
