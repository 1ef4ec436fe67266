"""Cache labelled: whoever finds a cache reads whose it is, and its owners know where it is.

For each place that is left alone: it is not given as without label or position. The amount is
how many of the two are missing. Land managers ask for the party's identity on the tag.

Documents: peak-dispatches, unattended-property.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.left_alone import read_left_alone
from solver.plan import Finding

RULE = "cache_labelled"


def cache_labelled(facts: Facts) -> Iterator[Finding]:
    """Caches that are given as without label or position."""
    for left in read_left_alone(facts):
        missing = [
            word
            for word, given in (
                ("label", left.cache.has_label),
                ("position fix", left.cache.has_position),
            )
            if given is False
        ]
        if missing:
            place = left.place.place_id
            yield Finding(
                RULE,
                f"the cache at {place} is meant to have no {' and no '.join(missing)}",
                len(missing),
                "marks",
                (("place", place),),
                tuple(f"give the cache at {place} a {word}" for word in missing),
            )
