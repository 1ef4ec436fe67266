"""The calendars that rules allow: carries on each leg and nights of rest at each place.

The moves outbound and everything that comes after the last of them (summit days, the descent) are
those of the calendar given, and so are back-carries. Its carries over the legs of moves that go
over one leg, and its days without travel up to right after the last such move, are chosen anew.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import product

from solver.problem import Calendar, Day, Problem, Visit

Choice = tuple[int, ...]
"""Carries by move, then days of rest by the place where each move ends."""


@dataclass(frozen=True, slots=True)
class Move:
    """A move outbound over one leg, with what follows it as given, such as a back-carry."""

    day: Day
    after: tuple[Day, ...] = ()


@dataclass(frozen=True, slots=True)
class Skeleton:
    """What is before the first move outbound, the moves, and what is after the last of them."""

    lead: tuple[Day, ...]
    moves: tuple[Move, ...]
    tail: tuple[Day, ...]
    rests_given: Choice

    @classmethod
    def of(cls, problem: Problem) -> Skeleton | None:
        """That of a problem's calendar; None where people part or no move goes over one leg."""
        days = problem.calendar.days
        if any(len(day.visits) > 1 for day in days):
            return None
        numbers = [n for n, day in enumerate(days) if _is_move(problem, day.visits[0].places)]
        if not numbers:
            return None
        legs = {days[number].visits[0].places for number in numbers}
        end = numbers[-1] + 1
        while end < len(days) and len(days[end].visits[0].places) == 1:
            end += 1
        parts = [
            days[number + 1 : after]
            for number, after in zip(numbers, [*numbers[1:], end], strict=True)
        ]
        return cls(
            lead=tuple(_fixed(days[: numbers[0]], legs)),
            moves=tuple(
                Move(days[number], tuple(_fixed(part, legs)))
                for number, part in zip(numbers, parts, strict=True)
            ),
            tail=days[end:],
            rests_given=tuple(
                sum(day.visits[0].places == days[number].visits[0].places[1:] for day in part)
                for number, part in zip(numbers, parts, strict=True)
            ),
        )

    def legs(self) -> tuple[tuple[str, str], ...]:
        """From where to where each move goes."""
        ends = [move.day.visits[0].places for move in self.moves]
        return tuple((here, there) for here, there in ends)

    def days_of(self, choice: Choice) -> int:
        """How many days a choice takes."""
        given = sum(1 + len(move.after) for move in self.moves)
        return sum(choice) + len(self.lead) + given + len(self.tail)

    def calendar(self, carries: Choice, rests: Choice) -> Calendar:
        """Carries before each move, days of rest after it."""
        return self.relayed(carries, rests, (0,) * len(self.moves))[0]

    def relayed(
        self, carries: Choice, rests: Choice, relays: Choice
    ) -> tuple[Calendar, frozenset[int]]:
        """The same with more carries on the day of each move, and the numbers of their trips."""
        days, further = list(self.lead), set[int]()
        for number, move in enumerate(self.moves):
            visit = move.day.visits[0]
            here, there = visit.places
            days += [_day(visit, (here, there, here))] * carries[number]
            trip = sum(len(day.visits[0].places) - 1 for day in days)
            further |= set(range(trip, trip + 2 * relays[number]))
            places = (*(here, there) * relays[number], here, there)
            days.append(replace(move.day, visits=(replace(visit, places=places),)))
            days += [*move.after, *[_day(visit, (there,))] * rests[number]]
        return Calendar((*days, *self.tail)), frozenset(further)


def _fixed(days: tuple[Day, ...], legs: set[tuple[str, ...]]) -> Iterator[Day]:
    """The days that stay as given: neither carries over the legs of moves nor without travel."""
    for day in days:
        places = day.visits[0].places
        is_carry = len(places) == 3 and places[0] == places[2] and places[:2] in legs
        if len(places) > 1 and not is_carry:
            yield day


def _day(visit: Visit, places: tuple[str, ...]) -> Day:
    return Day((replace(visit, places=places),))


def _is_outbound(problem: Problem, here: str, there: str) -> bool:
    return problem.route.leg_between(here, there).from_place == here


def _is_move(problem: Problem, places: tuple[str, ...]) -> bool:
    return len(places) == 2 and _is_outbound(problem, *places)


@dataclass(frozen=True, slots=True)
class CalendarRules:
    """What calendars may be: at most so many days, carries by leg, days of rest by place.

    Pairs are (least, most); what is not named has `carries` and `rests`. Without `rests` there are
    as many days of rest as the calendar given has.
    """

    most_days: int
    carries: tuple[int, int] = (0, 2)
    carries_on: tuple[tuple[tuple[str, str], tuple[int, int]], ...] = ()
    rests: tuple[int, int] | None = None
    rests_at: tuple[tuple[str, tuple[int, int]], ...] = ()

    def box(self, skeleton: Skeleton) -> Box:
        """The whole of what is allowed."""
        legs = skeleton.legs()
        on, at = dict(self.carries_on), dict(self.rests_at)
        ends = [on.get(leg, self.carries) for leg in legs]
        ends += [
            at.get(there, self.rests or (given, given))
            for (_, there), given in zip(legs, skeleton.rests_given, strict=True)
        ]
        return Box(tuple(low for low, _ in ends), tuple(high for _, high in ends))


@dataclass(frozen=True, slots=True, order=True)
class Box:
    """All choices between `low` and `high`, both included."""

    low: Choice
    high: Choice

    @property
    def is_one(self) -> bool:
        """Whether only one choice is left."""
        return self.low == self.high

    def halves(self) -> tuple[Box, Box]:
        """Two boxes that together are this one, parted at the widest choice."""
        widths = [high - low for low, high in zip(self.low, self.high, strict=True)]
        number = widths.index(max(widths))
        middle = (self.low[number] + self.high[number]) // 2
        return (
            replace(self, high=_with(self.high, number, middle)),
            replace(self, low=_with(self.low, number, middle + 1)),
        )

    def choices(self) -> Iterator[Choice]:
        """Every choice."""
        return product(
            *(range(low, high + 1) for low, high in zip(self.low, self.high, strict=True))
        )

    def count(self) -> int:
        """How many choices there are."""
        number = 1
        for low, high in zip(self.low, self.high, strict=True):
            number *= high - low + 1
        return number


def _with(choice: Choice, number: int, value: int) -> Choice:
    return (*choice[:number], value, *choice[number + 1 :])
