"""Weather days enough: the calendar has days to spare for bad weather.

On a trip of `weather_from_days` days or more: days without travel after the first trip and
before the last >= `weather_days_percent` of all days, rounded up. The amount is in days.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.plan import Finding
from solver.quantities import share_up

RULE = "weather_days_enough"


def weather_days_enough(facts: Facts) -> Iterator[Finding]:
    """Days without travel that the calendar lacks."""
    rules = facts.problem.rules
    length = len(facts.problem.calendar.days)
    if length < rules.whole("weather_from_days"):
        return
    travelled = {trip.day for trip in facts.timeline.trips}
    spare = sum(
        day not in travelled for day in range(min(travelled, default=1), max(travelled, default=0))
    )
    percent = rules.whole("weather_days_percent")
    needed = share_up(amount=length, percent=percent)
    if spare < needed:
        yield Finding(
            RULE,
            f"the calendar of {length} days has {spare} days without travel on the way, "
            f"{percent} % of it is {needed}",
            needed - spare,
            "days",
            (),
            (f"add {needed - spare} more without travel",),
        )
