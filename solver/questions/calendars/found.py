"""What comes of looking for calendars, as data."""

from __future__ import annotations

from dataclasses import dataclass

from solver.plan import Plan
from solver.problem import Calendar
from solver.questions.calendars.space import Choice


@dataclass(frozen=True, slots=True)
class SolvedCalendar:
    """A calendar with the plan found for it: its peak and bound [1/10,000], its heavy person-trips.

    A person-trip is heavy where its load is over 90 % of a cap.
    """

    calendar: Calendar
    choice: Choice
    days: int
    peak: int
    bound: int
    heavy: int
    plan: Plan


@dataclass(frozen=True, slots=True)
class CurvePoint:
    """For at most so many days: the calendar with the least peak, and what is proven.

    `gap` is the most by which any calendar of the rules with at most so many days may lie below
    [1/10,000]. `calmer` is the one with the fewest heavy person-trips whose peak is within the
    tolerance, where another has fewer.
    """

    days: int
    best: SolvedCalendar
    gap: int
    calmer: SolvedCalendar | None = None


@dataclass(frozen=True, slots=True)
class FoundCalendars:
    """The curve by days, how many calendars the rules allow, and how many were solved whole.

    `open_calendars` were neither solved nor ruled out when the time ended; their bounds are in
    the gaps. `aside` are days and bound of all that may hold something better than what was found.
    """

    curve: tuple[CurvePoint, ...]
    allowed: int
    solved: int
    open_calendars: int
    all_solved: tuple[SolvedCalendar, ...] = ()
    aside: tuple[tuple[int, int], ...] = ()
