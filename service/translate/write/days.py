"""The days of a calendar as an answer tells them: date, places, and what kind of day it is."""

from __future__ import annotations

import datetime as dt
from itertools import pairwise

from solver.problem import Day, PlaceKind, Problem


def date_of(start_date: dt.date | None, day: int) -> dt.date | None:
    """The date of a day, counted from 1; day 0 is the start, on the date of day 1."""
    if start_date is None:
        return None
    try:
        return start_date + dt.timedelta(days=max(day, 1) - 1)
    except OverflowError:
        return None


def kind_of(problem: Problem, day: Day) -> str:
    """What kind of day it is; "split" where rope teams do different things."""
    kinds = {_kind_of_visit(problem, visit.places) for visit in day.visits}
    return kinds.pop() if len(kinds) == 1 else "split"


def _kind_of_visit(problem: Problem, places: tuple[str, ...]) -> str:
    route = problem.route
    first, last = places[0], places[-1]
    outward = [route.is_at_or_beyond(there, here) for here, there in pairwise(places)]
    if not outward:
        return "rest"
    if any(route.place(place).kind is PlaceKind.SUMMIT for place in places):
        return "summit"
    if first == last:
        if outward[0] and all(route.is_at_or_beyond(place, first) for place in places):
            return "carry"
        return "back_carry" if not outward[0] and outward[-1] else "carry_both_ways"
    if all(outward):
        return "move"
    if not any(outward):
        return "descent"
    return "relay"
