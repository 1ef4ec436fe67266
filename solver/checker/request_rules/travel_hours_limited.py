"""Travel hours limited: a day with loads is no longer than people can keep up.

For each day without a summit whose hours are known: sum of its trips' hours <= `travel_hours`.
The amount is in minutes, rounded up. A summit day is judged by its start and turn-round.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.day_hours import read_travel_days
from solver.checker.queries.words import people_words
from solver.plan import Finding

RULE = "travel_hours_limited"


def travel_hours_limited(facts: Facts) -> Iterator[Finding]:
    """Minutes by which days are too long, one finding for people alike."""
    most = facts.problem.rules.number("travel_hours")
    for days, people in read_travel_days(facts).items():
        for day in days:
            if day.hours is None or day.to_summit or day.hours <= most + 1e-9:
                continue
            yield Finding(
                RULE,
                f"day {day.day}, {people_words(people)}: {day.hours:.1f} h on the way, "
                f"{most:.1f} h are the most with loads",
                math.ceil((day.hours - most) * 60 - 1e-6),
                "minutes",
                (("day", day.day), ("person", people[0])),
                (f"part day {day.day} in two", "leave a cache nearer"),
            )
