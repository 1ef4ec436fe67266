"""Cache may melt out: where snow melts away a cache is dug deeper or covered.

For each place that is left alone: it is not given as melting out. The amount is 1 a place.

Documents: peak-dispatches.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.left_alone import read_left_alone
from solver.plan import Finding
from solver.problem import CacheDanger

RULE = "cache_may_melt_out"


def cache_may_melt_out(facts: Facts) -> Iterator[Finding]:
    """Places where a cache may come to light."""
    for left in read_left_alone(facts):
        if CacheDanger.MELT_OUT in left.cache.dangers:
            place = left.place.place_id
            yield Finding(
                RULE,
                f"what is left at {place} may melt out: dig deeper, cover it and come back early",
                1,
                "places",
                (("place", place),),
            )
