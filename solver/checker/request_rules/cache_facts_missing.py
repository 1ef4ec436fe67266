"""Cache facts missing: what the request does not say of places where things may be left.

For each place that is left alone: facts given of depth, poles, position and label = 4. And where
there is any such place: the land manager's limit `cache_days` is given in the request. The
amount is how many facts are missing.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.left_alone import read_left_alone
from solver.plan import Finding

RULE = "cache_facts_missing"
_LIMIT = "cache_days"


def cache_facts_missing(facts: Facts) -> Iterator[Finding]:
    """Facts of caches that are not checked because they are not given."""
    alone = read_left_alone(facts)
    for left in alone:
        cache = left.cache
        missing = [
            word
            for word, given in (
                ("depth", cache.depth_m),
                ("poles", cache.poles),
                ("position fix", cache.has_position),
                ("label", cache.has_label),
            )
            if given is None
        ]
        if missing:
            place = left.place.place_id
            yield Finding(
                RULE,
                f"what may be left at {place}: {', '.join(missing)} not given, so not checked",
                len(missing),
                "facts",
                (("place", place),),
                (f"give {', '.join(missing)} of {place}",),
            )
    if alone and _LIMIT not in dict(facts.problem.rules.numbers):
        yield Finding(
            RULE,
            "how many days the land manager lets things stand in the ground is not given; the "
            "rulebook's number is used",
            1,
            "facts",
            (),
            (f"state {_LIMIT}, as the land manager has it",),
        )
