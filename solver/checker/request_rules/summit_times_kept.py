"""Summit times kept: a summit day starts and turns round early enough.

On each day that visits a summit, where it is stated: start hour <= `summit_start_hour` and
turn-round hour <= `turn_round_hour`. The amount is in minutes, rounded up.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.summits import summit_visits
from solver.checker.queries.words import clock
from solver.plan import Finding

RULE = "summit_times_kept"


def summit_times_kept(facts: Facts) -> Iterator[Finding]:
    """Minutes by which summit days start or turn round too late."""
    rules = facts.problem.rules
    for number, summit, day in summit_visits(facts):
        for word, hour, latest in (
            ("start", day.start_hour, rules.number("summit_start_hour")),
            ("turn-round", day.turn_round_hour, rules.number("turn_round_hour")),
        ):
            if hour is not None and hour > latest:
                yield Finding(
                    RULE,
                    f"{summit}, day {number}: the {word} is at {clock(hour)}, "
                    f"{clock(latest)} is the latest",
                    math.ceil((hour - latest) * 60 - 1e-6),
                    "minutes",
                    (("day", number), ("place", summit)),
                    (f"set the {word} at {clock(latest)} or earlier",),
                )
