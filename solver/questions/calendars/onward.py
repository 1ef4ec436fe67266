"""The calendars that are left to an expedition under way: the days that are over stay as they were.

Of the days to come the moves outbound, back-carries and all that follows the last move stay. Days
without travel where everybody is now, carries over the legs of those moves, and days without
travel right after each move are chosen anew.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from solver.problem import Calendar, Day, Problem, Visit
from solver.questions.calendars.space import Box, CalendarRules, Choice, Skeleton


@dataclass(frozen=True, slots=True)
class Onward:
    """What is over, where everybody is, and the skeleton of the days to come."""

    over: tuple[Day, ...]
    here: Visit
    rests_here: int
    skeleton: Skeleton

    @classmethod
    def of(cls, problem: Problem) -> Onward | None:
        """That of a problem with a history; None where people part in the days to come."""
        history = problem.history
        if history is None or history.day < 1:
            return None
        days = problem.calendar.days
        over, ahead = days[: history.day], days[history.day :]
        if not ahead or any(len(day.visits) > 1 for day in ahead):
            return None
        visit = ahead[0].visits[0]
        here = replace(visit, places=visit.places[:1])
        skeleton = Skeleton.of(replace(problem, calendar=Calendar(ahead)))
        if skeleton is None:
            # Nothing is left but the way home, as given, once the waiting here is over.
            waiting = next((n for n, day in enumerate(ahead) if _travels(day)), len(ahead))
            return cls(over, here, waiting, Skeleton((), (), ahead[waiting:], ()))
        before = ahead[: ahead.index(skeleton.moves[0].day)]
        return cls(over, here, sum(not _travels(day) for day in before), skeleton)

    def box(self, rules: CalendarRules) -> Box:
        """All choices that the rules allow; the first number is of days without travel here."""
        place, inner = self.here.places[0], rules.box(self.skeleton)
        given = self.rests_here, self.rests_here
        low, high = dict(rules.rests_at).get(place, rules.rests or given)
        return Box((low, *inner.low), (high, *inner.high))

    def calendar(self, choice: Choice) -> Calendar:
        """The whole calendar of a choice, with the days that are over."""
        moves = len(self.skeleton.moves)
        waiting, carries, rests = choice[0], choice[1 : moves + 1], choice[moves + 1 :]
        ahead = self.skeleton.calendar(carries, rests).days
        return Calendar((*self.over, *[Day((self.here,))] * waiting, *ahead))

    def calendars(self, problem: Problem, rules: CalendarRules) -> tuple[Calendar, ...]:
        """Every allowed calendar once, that of the problem first, then by its distance in days.

        The problem's own counts as allowed whatever the rules on carries and rest are.
        """
        own = problem.calendar
        found = {_visits(own): own}
        for choice in self.box(rules).choices():
            calendar = self.calendar(choice)
            if len(calendar.days) > len(self.over):
                found.setdefault(_visits(calendar), calendar)
        days = len(own.days)
        near = sorted(
            found.values(),
            key=lambda one: (one is not own, abs(len(one.days) - days), len(one.days)),
        )
        return tuple(one for one in near if len(one.days) <= rules.most_days)

    def carries(self, calendar: Calendar) -> dict[tuple[str, str], int]:
        """How many days to come carry over each leg of a move."""
        counts = dict.fromkeys(self.skeleton.legs(), 0)
        for day in self._ahead(calendar):
            places = day.visits[0].places
            if len(places) == 3 and places[0] == places[2] and places[:2] in counts:
                counts[places[0], places[1]] += 1
        return counts

    def rests(self, calendar: Calendar) -> dict[str, int]:
        """How many days to come are without travel, by place."""
        counts: dict[str, int] = {}
        for day in self._ahead(calendar):
            if not _travels(day):
                place = day.visits[0].places[0]
                counts[place] = counts.get(place, 0) + 1
        return counts

    def _ahead(self, calendar: Calendar) -> Iterator[Day]:
        yield from calendar.days[len(self.over) :]


def _travels(day: Day) -> bool:
    return len(day.visits[0].places) > 1


def _visits(calendar: Calendar) -> tuple[tuple[Visit, ...], ...]:
    """Where everybody goes each day; calendars that differ in notes only are one."""
    return tuple(day.visits for day in calendar.days)
