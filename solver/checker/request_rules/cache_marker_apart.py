"""Cache marker apart: poles stand a little off the cache, where birds know them.

For each place that is left alone, unless its poles are given as none: one
finding. No request gives where a pole stands. The amount is how many such places there are.

Documents: mountaineering-textbook.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.left_alone import read_left_alone
from solver.checker.queries.words import listed
from solver.plan import Finding

RULE = "cache_marker_apart"


def cache_marker_apart(facts: Facts) -> Iterator[Finding]:
    """Where poles stand, one finding for all caches."""
    places = [left.place.place_id for left in read_left_alone(facts) if left.cache.poles != 0]
    if places:
        yield Finding(
            RULE,
            f"ravens know markers: at {listed(places)} set the poles a little way off the cache, "
            "smooth the snow over it, and write down bearing and distance",
            len(places),
            "places",
            tuple(("place", place_id) for place_id in places),
        )
