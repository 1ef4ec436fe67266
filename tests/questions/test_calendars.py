"""Calendars: the curve equals enumeration, boxes bound their members, a goal chooses one."""

from __future__ import annotations

from dataclasses import replace

import pytest

from solver.model.box_bound import box_bound
from solver.outcome import Solved
from solver.pipeline import plan
from solver.problem.faults import examine
from solver.progress import Watch
from solver.questions.calendars.choose import Figure, Goal, choose
from solver.questions.calendars.found import CurvePoint, FoundCalendars, SolvedCalendar
from solver.questions.calendars.search import find_calendars
from solver.questions.calendars.space import Box, CalendarRules, Skeleton
from tests.questions.calendar_enumeration import EXACT, enumerated, searched, three_camps
from tests.rules.worlds import world

RULES = CalendarRules(most_days=12, carries=(0, 1), rests=(0, 1))


def days_of(problem) -> list[str]:
    """The calendar in the words that worlds are written in."""
    return ["-".join(day.visits[0].places) for day in problem.calendar.days]


@pytest.mark.parametrize("seed", [0, 1])
def test_the_curve_equals_full_enumeration(seed):
    """On two camps the least peak for each number of days is that of solving every calendar."""
    problem = three_camps(seed, camps=2)
    curve, allowed, solved = searched(problem, RULES)
    assert curve == enumerated(problem, RULES)
    assert (allowed, solved < allowed) == (16, True)


def test_given_counts_rule_out_no_longer_calendar():
    """Bags and cans given for the shortest calendar alone: longer ones take what they need.

    So the curve is that of a request that leaves the numbers out.
    """
    problem = three_camps(0, camps=2)
    (group,) = problem.cook_groups
    (can,) = group.containers
    nights = len(problem.calendar.days)
    few = replace(
        problem,
        cook_groups=(replace(group, containers=(replace(can, count=1),)),),
        night_sets=tuple(replace(s, bag_count=2 * nights) for s in problem.night_sets),
    )
    assert {fault.code for fault in examine(few)[0]} <= {"too_few_containers"}
    assert searched(few, RULES)[0] == enumerated(problem, RULES)


@pytest.mark.parametrize("seed", [2, 3])
def test_no_member_of_a_box_has_a_peak_below_its_bound(seed):
    """The bound of a box of carries is at most the proven peak of each member."""
    problem = three_camps(seed, camps=2)
    skeleton = Skeleton.of(problem)
    assert skeleton is not None
    calendar, further = skeleton.relayed((0, 0), (0, 0), (1, 2))
    bound = box_bound(replace(problem, calendar=calendar), further, seconds=10.0)
    assert bound is not None
    assert bound > 0
    for first in (0, 1):
        for second in (0, 1, 2):
            member = skeleton.calendar((first, second), (0, 0))
            outcome = plan(replace(problem, calendar=member), EXACT)
            assert isinstance(outcome, Solved)
            assert bound <= outcome.peak.value


def test_a_skeleton_keeps_moves_back_carries_and_what_follows():
    """Carries and rests before the last move are taken out; the descent and back-carries stay."""
    given = "strip-c1-strip strip-c1 c1-strip-c1 c1 c1-c2 c2 c2-c1 c1 c1-strip"
    problem = world(given)
    skeleton = Skeleton.of(problem)
    assert skeleton is not None
    assert skeleton.legs() == (("strip", "c1"), ("c1", "c2"))
    bare = replace(problem, calendar=skeleton.calendar((0, 0), (0, 0)))
    assert days_of(bare) == ["strip-c1", "c1-strip-c1", "c1-c2", "c2-c1", "c1", "c1-strip"]
    full = replace(problem, calendar=skeleton.calendar((0, 2), (1, 1)))
    assert days_of(full) == [
        "strip-c1", "c1-strip-c1", "c1", "c1-c2-c1", "c1-c2-c1", "c1-c2", "c2", "c2-c1", "c1",
        "c1-strip",
    ]  # fmt: skip
    assert skeleton.days_of((0, 2, 1, 1)) == 10


def test_relays_are_the_trips_that_not_every_member_makes():
    """Of strip-c1-strip-c1 the first two trips are the relay's, counted over the calendar."""
    problem = world("strip-c1 c1-c2 c2-c1-strip")
    skeleton = Skeleton.of(problem)
    assert skeleton is not None
    calendar, further = skeleton.relayed((0, 0), (0, 0), (0, 1))
    assert calendar.days[1].visits[0].places == ("c1", "c2", "c1", "c2")
    assert further == {1, 2}


def test_halves_of_a_box_are_the_box():
    """No choice is lost and none is there twice."""
    box = Box((0, 1), (3, 2))
    one, other = box.halves()
    assert sorted([*one.choices(), *other.choices()]) == sorted(box.choices())
    assert box.count() == 8


def test_without_moves_there_is_nothing_to_choose():
    """A calendar that never moves outbound has no skeleton."""
    assert Skeleton.of(world("strip-c1-strip")) is None


def test_a_search_that_runs_out_of_time_says_what_is_open():
    """Where the clock ends first, what was not looked at is counted and the gap covers it."""
    times = iter(range(10**6))
    short = Watch(6.0, now=lambda: float(next(times)))
    short.start()
    found = find_calendars(three_camps(0, camps=2), RULES, EXACT, short)
    assert found is not None
    assert found.open_calendars + found.solved > 0
    for point in found.curve:
        lowest = min(bound for days, bound in found.aside if days <= point.days)
        assert point.gap >= point.best.peak - lowest


def test_what_is_found_is_told_before_each_calendar_that_is_solved():
    """Nothing at first, one calendar more each time; what is open and left aside is counted."""
    told: list[FoundCalendars] = []
    problem = three_camps(0, camps=2)
    found = find_calendars(problem, RULES, EXACT, Watch(1e6), tell=told.append)
    assert found is not None
    assert [one.solved for one in told] == list(range(found.solved))
    assert told[0].curve == ()
    assert told[-1].open_calendars > 0
    assert {one.allowed for one in told} == {found.allowed}
    for one in told[1:]:
        assert one.curve[0].best in one.all_solved


def solved(days: int, peak: int, heavy: int) -> SolvedCalendar:
    """A calendar with these figures."""
    problem = three_camps(0, camps=2)
    return SolvedCalendar(problem.calendar, (0,), days, peak, peak, heavy, None)  # type: ignore[arg-type]


def test_a_goal_takes_the_least_of_one_figure_within_limits():
    """Fewest days for a peak, least peak for so many days, fewest heavy trips for both."""
    table = (solved(5, 9_500, 3), solved(6, 9_000, 4), solved(8, 8_000, 1))
    points = tuple(CurvePoint(one.days, one, gap=0) for one in table)
    found = FoundCalendars(points, 3, 3, 0, table, aside=((7, 7_900),))
    fewest = choose(found, Goal(Figure.DAYS, peak=9_200), tolerance=0)
    assert fewest is not None
    assert (fewest.calendar.days, fewest.proven) == (6, True)
    least = choose(found, Goal(days=7), tolerance=0)
    assert least is not None
    assert (least.calendar.peak, least.proven) == (9_000, False)
    calm = choose(found, Goal(Figure.HEAVY, days=6), tolerance=0)
    assert calm is not None
    assert (calm.calendar.heavy, calm.proven) == (3, False)
    assert choose(found, Goal(peak=7_000), tolerance=0) is None
