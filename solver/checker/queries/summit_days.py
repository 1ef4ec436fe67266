"""Days that visit a summit, and how hours of the clock are written."""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.problem import Day, PlaceKind


def read_summit_days(facts: Facts) -> Iterator[tuple[int, str, Day]]:
    """Each day with each summit that somebody visits on it, days from 1."""
    for number, day in enumerate(facts.problem.calendar.days, start=1):
        for place in facts.problem.route.places:
            if place.kind is PlaceKind.SUMMIT and any(
                place.place_id in visit.places for visit in day.visits
            ):
                yield number, place.place_id, day


def clock(hour: float) -> str:
    """An hour of the day as a clock shows it."""
    minutes = round(hour * 60)
    return f"{minutes // 60:02d}:{minutes % 60:02d}"
