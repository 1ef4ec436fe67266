"""Cache poles at hand: where a plan leaves things, the poles that mark them stand there too.

Where marker poles are listed, on each night of each place, not the start, where nobody sleeps
and something stands: marker poles there >= the poles given for its cache, else
`poles_per_cache`. One finding a place, of the first night that lacks most; in poles.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.holdings import in_hand, pieces
from solver.checker.queries.left_alone import MARKS
from solver.checker.queries.listed_gear import is_listed
from solver.checker.queries.unattended import read_caches
from solver.plan import Finding

RULE = "cache_poles_at_hand"


def cache_poles_at_hand(replay: Replay) -> Iterator[Finding]:
    """Poles that are elsewhere on nights on which a cache needs them."""
    problem = replay.facts.problem
    if not any(is_listed(replay.facts, purpose) for purpose in MARKS):
        return
    poles = {unit: 1 for purpose in MARKS for unit in pieces(replay.facts, purpose)}
    least = problem.rules.whole("poles_per_cache")
    worst: dict[str, tuple[int, int]] = {}
    for cache in read_caches(replay):
        site = problem.route.place(cache.place_id).cache
        needed = least if site is None or site.poles is None else max(site.poles, least)
        lacking = needed - in_hand(poles, cache.units)
        if lacking > worst.get(cache.place_id, (0, 0))[0]:
            worst[cache.place_id] = (lacking, cache.day)
    for place_id, (lacking, day) in worst.items():
        are = "is" if lacking == 1 else "are"
        yield Finding(
            RULE,
            f"{place_id}, night of day {day}: things stand alone there, and {lacking} of the poles "
            f"that mark them {are} elsewhere: bring them on that trip, or mark with something else",
            lacking,
            "poles",
            (("day", day), ("place", place_id)),
        )
