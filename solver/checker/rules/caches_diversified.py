"""Caches diversified: the loss of one unattended place leaves most of a group's stock.

After each night, for each cook group and each place, not the start, where nobody sleeps: night
sets there <= `cache_share_percent` of all that the group has anywhere, rounded down; fuel
likewise. One finding a group, place and kind, of the worst night; the amount is what is too
much, in night sets or mL.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.ledger.times import after_night
from solver.checker.queries.holdings import fuel_ml, held_anywhere, in_hand, night_sets
from solver.checker.queries.telling import litres
from solver.checker.queries.unattended import read_caches
from solver.plan import Finding
from solver.quantities import share_down

RULE = "caches_diversified"

_Worst = tuple[int, int, int]


def caches_diversified(replay: Replay) -> Iterator[Finding]:
    """Food and fuel beyond their share in one place that is left alone."""
    percent = replay.facts.problem.rules.whole("cache_share_percent")
    worst: dict[tuple[str, str, str], _Worst] = {}
    for cache in read_caches(replay):
        time = after_night(replay.facts.night(cache.day))
        for group in replay.facts.problem.cook_groups:
            for unit, worth in (
                ("night sets", night_sets(replay.facts, group.cook_group_id)),
                ("mL", fuel_ml(replay.facts, cache.day, group.cook_group_id)),
            ):
                here, total = in_hand(worth, cache.units), held_anywhere(replay, worth, time)
                over = here - share_down(amount=total, percent=percent)
                key = (group.cook_group_id, cache.place_id, unit)
                if over > max(0, worst.get(key, (0, 0, 0))[0]):
                    worst[key] = (over, cache.day, here)
    for (group_id, place_id, unit), (over, day, here) in worst.items():
        stock = f"{here} night sets" if unit == "night sets" else f"{litres(here)} of fuel"
        yield Finding(
            RULE,
            f"night of day {day}: {stock} of cook group {group_id} stand alone at {place_id}, "
            f"more than {percent} % of all that it has",
            over,
            unit,
            (("day", day), ("place", place_id), ("cook_group", group_id)),
        )
