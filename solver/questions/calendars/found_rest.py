"""What comes of looking for calendars on the way, as data, and which of them are worth having."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from solver.problem import Calendar
from solver.rest.result import Rest

Worth = tuple[int, int, int, int]
"""Steps of the leader's order, days, peak [1/10,000], loads that change: less is better of each."""


@dataclass(frozen=True, slots=True)
class RestCalendar:
    """A calendar with the plan of the rest that a re-plan gives for it.

    `gap` is the most by which a calendar that was not planned may have a lower peak with no more
    days and no more let go [1/10,000].
    """

    calendar: Calendar
    rest: Rest
    peak: int
    changed: int
    gap: int = 0

    @property
    def worth(self) -> Worth:
        """What it is compared by."""
        return len(self.rest.let_go), len(self.calendar.days), self.peak, self.changed


@dataclass(frozen=True, slots=True)
class NotPlanned:
    """A calendar that was not planned: its days, and no re-plan of it has a lower peak.

    `bounds` has one number for each count of steps let go [1/10,000], None where there is no plan.
    """

    days: int
    bounds: tuple[int | None, ...]

    def gap_to(self, one: RestCalendar) -> int:
        """How far it may lie below a planned calendar [1/10,000]."""
        let_go, days, peak, _ = one.worth
        if self.days > days:
            return 0
        known = [bound for bound in self.bounds[: let_go + 1] if bound is not None]
        return max((peak - bound for bound in known if bound < peak), default=0)

    def is_ruled_out(self, planned: Sequence[RestCalendar], tolerance: int) -> bool:
        """Whether one with no more days and no more let go has a peak as low, by the tolerance."""
        return all(
            any(
                one.worth[0] <= let_go
                and one.worth[1] <= self.days
                and one.peak - tolerance <= bound
                for one in planned
            )
            for let_go, bound in enumerate(self.bounds)
            if bound is not None
        )


@dataclass(frozen=True, slots=True)
class FoundRest:
    """The calendars that no other beats in everything, and how far the search went.

    Of `allowed` calendars `planned` have a plan and `without_plan` have none, which is proven.
    Those `aside` cannot have a peak below the others by more than the tolerance.
    """

    calendars: tuple[RestCalendar, ...]
    allowed: int
    planned: int
    without_plan: int
    aside: int = 0

    @property
    def left_open(self) -> int:
        """Calendars of which nothing is known, because the time ended."""
        return self.allowed - self.planned - self.without_plan - self.aside


def worth_having(
    planned: Sequence[RestCalendar], others: Sequence[NotPlanned] = ()
) -> tuple[RestCalendar, ...]:
    """Those that no other is as good as in everything, least let go and fewest days first.

    Of equals the first stays. Each has its gap to the others, which were not planned.
    """
    kept = [
        replace(one, gap=max((other.gap_to(one) for other in others), default=0))
        for number, one in enumerate(planned)
        if not any(
            _is_as_good(other.worth, one.worth) and (other.worth != one.worth or place < number)
            for place, other in enumerate(planned)
        )
    ]
    return tuple(sorted(kept, key=lambda one: one.worth))


def _is_as_good(one: Worth, other: Worth) -> bool:
    return all(a <= b for a, b in zip(one, other, strict=True))
