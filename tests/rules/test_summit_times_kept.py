"""Summit times kept: the latest start and the latest turn-round of a summit day."""

from dataclasses import replace
from functools import partial

import pytest

from solver.problem import Calendar, PlaceKind, Problem
from tests.rules.calendar_worlds import hard_case, told, with_kind
from tests.rules.worlds import RequestCase, request_found, world

RULE = "summit_times_kept"
_case = partial(hard_case, RULE)


def summit_day(start: float | None, turn_round: float | None, days: str = "") -> Problem:
    """A day to c2 and back, a summit, with its times."""
    problem = with_kind(world(days or "strip-c1-c2-c1-strip"), "c2", PlaceKind.SUMMIT)
    timed = tuple(
        replace(day, start_hour=start, turn_round_hour=turn_round) for day in problem.calendar.days
    )
    return replace(problem, calendar=Calendar(timed))


CASES = (
    _case("at", summit_day(7.0, 15.0)),
    _case("a hair late to start", summit_day(7.005, 15.0), 1),
    _case("a hair late to turn round", summit_day(7.0, 15.005), 1),
    _case("both an hour and a half late", summit_day(8.5, 16.5), 90, 90),
    _case("nothing told is not judged here", summit_day(None, None)),
    _case(
        "a day without a summit",
        summit_day(9.0, 18.0, "strip-c1-strip strip-c1-c2-c1-strip"),
        120,
        180,
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_summit_day_starts_and_turns_round_in_time(case: RequestCase) -> None:
    """Stated times of summit days are no later than their limits, counted in minutes."""
    assert request_found(case.problem, RULE) == case.finds


def test_the_hours_are_told_as_a_clock_shows_them() -> None:
    """The words tell both hours and the day, and set the limit as the way out."""
    start, turn_round = told(CASES[3].problem, RULE)
    assert start.message == "c2, day 1: the start is at 08:30, 07:00 is the latest"
    assert turn_round.instead == ("set the turn-round at 15:00 or earlier",)
