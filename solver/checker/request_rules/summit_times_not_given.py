"""Summit times not given: each summit day gives when it starts and when it turns round.

On each day that visits a summit: times given = 2. The amount is how many times are missing.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.summits import summit_visits
from solver.plan import Finding

RULE = "summit_times_not_given"


def summit_times_not_given(facts: Facts) -> Iterator[Finding]:
    """Times that summit days do not give."""
    for number, summit, day in summit_visits(facts):
        missing = [
            word
            for word, hour in (("start", day.start_hour), ("turn-round", day.turn_round_hour))
            if hour is None
        ]
        if missing:
            yield Finding(
                RULE,
                f"{summit}, day {number}: the time of the {' and of the '.join(missing)} is not "
                "given, so it is not checked",
                len(missing),
                "times",
                (("day", number), ("place", summit)),
                (f"give the {' and the '.join(missing)} of day {number}",),
            )
