"""One calendar of those found: the least of one figure, with the others within limits."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from solver.questions.calendars.found import FoundCalendars, SolvedCalendar


class Figure(StrEnum):
    """A figure of the table of calendars."""

    PEAK = "peak"
    DAYS = "days"
    HEAVY = "heavy_person_trips"


@dataclass(frozen=True, slots=True)
class Goal:
    """The figure to have least of, and the most of each figure, None for no limit [1/10,000]."""

    minimise: Figure = Figure.PEAK
    peak: int | None = None
    days: int | None = None
    heavy: int | None = None

    def admits(self, one: SolvedCalendar) -> bool:
        """Whether a calendar keeps to every limit."""
        return (
            (self.peak is None or one.peak <= self.peak)
            and (self.days is None or one.days <= self.days)
            and (self.heavy is None or one.heavy <= self.heavy)
        )


@dataclass(frozen=True, slots=True)
class Chosen:
    """The calendar chosen, and whether nothing that the rules allow can be better."""

    calendar: SolvedCalendar
    proven: bool


def choose(found: FoundCalendars, goal: Goal, *, tolerance: int) -> Chosen | None:
    """The least of the goal's figure among all that were solved; None where none keeps the limits.

    Days and peak are proven where no calendar that was left aside can have less within the limits,
    by more than the tolerance [1/10,000]; a limit on heavy person-trips leaves nothing proven.
    """
    fits = [one for one in found.all_solved if goal.admits(one)]
    if not fits:
        return None
    best = min(fits, key=lambda one: _order(one, goal.minimise))
    return Chosen(best, _is_proven(found, goal, best, tolerance))


def _order(one: SolvedCalendar, figure: Figure) -> tuple[int, int, int]:
    if figure is Figure.DAYS:
        return one.days, one.peak, one.heavy
    if figure is Figure.HEAVY:
        return one.heavy, one.peak, one.days
    return one.peak, one.days, one.heavy


def _is_proven(found: FoundCalendars, goal: Goal, best: SolvedCalendar, tolerance: int) -> bool:
    if goal.minimise is Figure.HEAVY or goal.heavy is not None:
        return False
    if goal.minimise is Figure.DAYS:
        peak = 10_000 if goal.peak is None else goal.peak
        rivals = (bound for days, bound in found.aside if days < best.days)
        return all(bound > peak - tolerance for bound in rivals)
    rivals = (bound for days, bound in found.aside if goal.days is None or days <= goal.days)
    return all(bound >= best.peak - tolerance for bound in rivals)
