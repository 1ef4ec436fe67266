"""What comes of looking for calendars on the way, as data, and which of them are worth having."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from solver.problem import Calendar
from solver.rest.result import Rest

Worth = tuple[int, int, int, int]
"""Steps of the leader's order, days, peak [1/10,000], loads that change: less is better of each."""


@dataclass(frozen=True, slots=True)
class RestCalendar:
    """A calendar with the plan of the rest that a re-plan gives for it."""

    calendar: Calendar
    rest: Rest
    peak: int
    changed: int

    @property
    def worth(self) -> Worth:
        """What it is compared by."""
        return len(self.rest.let_go), len(self.calendar.days), self.peak, self.changed


@dataclass(frozen=True, slots=True)
class FoundRest:
    """The calendars that no other beats in everything, and how far the search went.

    Of `allowed` calendars `planned` have a plan and `without_plan` have none, which is proven.
    """

    calendars: tuple[RestCalendar, ...]
    allowed: int
    planned: int
    without_plan: int

    @property
    def left_open(self) -> int:
        """Calendars of which nothing is known, because the time ended."""
        return self.allowed - self.planned - self.without_plan


def worth_having(planned: Sequence[RestCalendar]) -> tuple[RestCalendar, ...]:
    """Those that no other is as good as in everything, least let go and fewest days first.

    Of equals the first stays.
    """
    kept = [
        one
        for number, one in enumerate(planned)
        if not any(
            _is_as_good(other.worth, one.worth) and (other.worth != one.worth or place < number)
            for place, other in enumerate(planned)
        )
    ]
    return tuple(sorted(kept, key=lambda one: one.worth))


def _is_as_good(one: Worth, other: Worth) -> bool:
    return all(a <= b for a, b in zip(one, other, strict=True))
