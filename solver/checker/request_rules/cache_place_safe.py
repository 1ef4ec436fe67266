"""Cache place safe: things are left where nothing falls on them and they fall into nothing.

For each place that is left alone: dangers given of it, melting out apart = 0. The amount is how
many dangers there are.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.left_alone import read_left_alone
from solver.plan import Finding
from solver.problem import CacheDanger

RULE = "cache_place_safe"

_WORDS = {
    CacheDanger.AVALANCHE_PATH: "in the path of avalanches",
    CacheDanger.SERACS_ABOVE: "under seracs",
    CacheDanger.CREVASSE_BRIDGE: "on a crevasse bridge",
    CacheDanger.WIND_SCOOP: "in a wind scoop",
}


def cache_place_safe(facts: Facts) -> Iterator[Finding]:
    """Places that are bad for a cache, with what makes them so."""
    for left in read_left_alone(facts):
        words = [_WORDS[danger] for danger in left.cache.dangers if danger in _WORDS]
        if words:
            place = left.place.place_id
            yield Finding(
                RULE,
                f"what is left at {place} lies {' and '.join(words)}",
                len(words),
                "dangers",
                (("place", place),),
                (f"choose another site near {place} and give it without these dangers",),
            )
