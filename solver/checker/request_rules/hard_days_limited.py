"""Hard days limited: after so many hard days running comes an easy one.

A hard day has `hard_day_hours` or more on the way, or trips whose hours are not known. For each
run of hard days: its length <= `hard_days_running`. The amount is in days.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.day_hours import TravelDay, read_travel_days
from solver.checker.queries.telling import runs
from solver.checker.queries.words import people_words
from solver.plan import Finding

RULE = "hard_days_limited"


def hard_days_limited(facts: Facts) -> Iterator[Finding]:
    """Runs of hard days that are too long, one finding for people alike."""
    from_hours = facts.problem.rules.number("hard_day_hours")
    most = facts.problem.rules.whole("hard_days_running")
    for days, people in read_travel_days(facts).items():
        hard = [(day.day, 1) for day in days if _is_hard(day, from_hours)]
        for run in runs(hard):
            length = run.last_day - run.first_day + 1
            if length > most:
                yield Finding(
                    RULE,
                    f"days {run.first_day} to {run.last_day}, {people_words(people)}: {length} "
                    f"hard days running, {most} are the most",
                    length - most,
                    "days",
                    (("day", run.first_day), ("last_day", run.last_day), ("person", people[0])),
                    (f"make day {run.first_day + most} a rest day or a short one",),
                )


def _is_hard(day: TravelDay, from_hours: float) -> bool:
    return day.hours is None or day.hours >= from_hours
