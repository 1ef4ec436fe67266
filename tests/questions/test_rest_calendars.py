"""Calendars from a counted state on: as many as re-planning each of them finds, and no others.

The file is long because all its tests go on from the same counted states.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from solver.outcome import Solved
from solver.pipeline import plan
from solver.plan import Plan
from solver.problem import Calendar, Change, Day, History, Problem, Reserve, ReserveKind, Visit
from solver.progress import Watch
from solver.questions.calendars.found_rest import FoundRest, NotPlanned, Worth, worth_having
from solver.questions.calendars.onward import Onward
from solver.questions.calendars.rest_search import find_rest_calendars
from solver.questions.calendars.space import CalendarRules
from solver.rest.changes import changed_loads
from solver.rest.least_peaks import least_peaks
from solver.rest.planning import plan_rest
from solver.rest.result import LettingGo
from tests.questions.calendar_enumeration import EXACT, three_camps
from tests.rules.worlds import world

RULES = CalendarRules(most_days=6, carries=(0, 1), rests=(0, 1))


def words_of(calendar) -> str:
    """A calendar in the words that worlds are written in."""
    return " ".join("-".join(day.visits[0].places) for day in calendar.days)


def with_days(problem: Problem, words: str) -> Problem:
    """The problem with another calendar."""
    return replace(problem, calendar=world(words).calendar)


@cache
def under_way(seed: int) -> tuple[Problem, Plan]:
    """Two people in the evening of day 1 at c1, and their plan with a rest at each camp."""
    words = "strip-c1-strip-c1 c1 c1-c2-c1 c1-c2 c2 c2-c1-strip"
    problem = with_days(three_camps(seed, camps=2), words)
    outcome = plan(problem, EXACT)
    assert isinstance(outcome, Solved)
    return replace(problem, history=History(1)), outcome.plan


def enumerated(problem: Problem, followed: Plan) -> dict[str, Worth]:
    """What each calendar of up to one carry and one rest at each of two camps comes to."""
    found = {}
    for here in ("", "c1 "):
        for carry in ("", "c1-c2-c1 "):
            for rest in ("", "c2 "):
                words = f"strip-c1-strip-c1 {here}{carry}c1-c2 {rest}c2-c1-strip"
                one = plan_rest(with_days(problem, words), followed, EXACT)
                days = len(words.split())
                if isinstance(one.outcome, Solved) and days <= RULES.most_days:
                    loads = changed_loads(one.problem, followed, one.outcome.plan)
                    found[words] = len(one.let_go), days, one.outcome.peak.value, len(loads)
    return found


@cache
def every_worth(seed: int) -> dict[str, Worth]:
    """What every calendar of a drawn expedition comes to."""
    return enumerated(*under_way(seed))


def searched(problem: Problem, followed: Plan, tolerance: int = 0) -> FoundRest:
    """What the search finds."""
    watch = Watch(1e6)
    found = find_rest_calendars(problem, followed, RULES, EXACT, watch, tolerance=tolerance)
    assert found is not None
    return found


@pytest.mark.parametrize("seed", [0, 1])
def test_the_search_finds_what_planning_every_calendar_finds(seed):
    """Whatever no other calendar beats in everything is found, and nothing else."""
    problem, followed = under_way(seed)
    every = every_worth(seed)
    best = {
        worth
        for worth in every.values()
        if not any(
            other != worth and all(a <= b for a, b in zip(other, worth, strict=True))
            for other in every.values()
        )
    }
    found = searched(problem, followed)
    assert [one.worth for one in found.calendars] == sorted(best)
    for one in found.calendars:
        assert every[words_of(one.calendar)] == one.worth
    assert (found.allowed, found.planned + found.aside, found.left_open) == (8, len(every), 0)
    assert found.without_plan == 8 - len(every)


def lies_below(one: Worth, other: Worth) -> int:
    """How far a calendar's peak is below another's, with no more let go and no more days."""
    return other[2] - one[2] if one[0] <= other[0] and one[1] <= other[1] else 0


@pytest.mark.parametrize("tolerance", [0, 150, 1_000])
@pytest.mark.parametrize("seed", range(4))
def test_none_lies_below_the_curve_by_more_than_the_gap(seed, tolerance):
    """Against planning every calendar: with no more days and no more let go none is below the gap.

    The gap is at most the tolerance where all were decided. With more days none is lower either.
    """
    problem, followed = under_way(seed)
    every = every_worth(seed)
    found = searched(problem, followed, tolerance)
    assert found.planned + found.aside == len(every)
    curve = [
        one
        for one in found.calendars
        if all(lies_below(other.worth, one.worth) <= 0 for other in found.calendars)
    ]
    for one in found.calendars:
        assert every[words_of(one.calendar)] == one.worth
        assert 0 <= one.gap <= tolerance
    for other in every.values():
        assert all(lies_below(other, one.worth) <= one.gap for one in curve)
        assert any(
            one.worth[0] <= other[0]
            and one.worth[1] <= other[1]
            and one.peak - tolerance <= other[2]
            for one in curve
        )


def test_bounds_leave_most_calendars_unplanned():
    """Over four drawn expeditions no tolerance leaves some aside, and a wide one leaves more."""
    aside = [
        sum(searched(*under_way(seed), tolerance).aside for seed in range(4))
        for tolerance in (0, 150, 1_000)
    ]
    assert 0 < aside[0] <= aside[1] < aside[2]


@pytest.mark.parametrize("seed", range(4))
def test_no_re_plan_has_a_peak_below_its_bound(seed):
    """Each calendar's bound is at most the peak of its plan, and there is none where none is."""
    problem, followed = under_way(seed)
    onward_of = Onward.of(problem)
    assert onward_of is not None
    every = every_worth(seed)
    for calendar in onward_of.calendars(problem, RULES):
        changed = replace(problem, calendar=calendar)
        (bound,) = least_peaks(changed, followed, EXACT, seconds=5.0)
        worth = every.get(words_of(calendar))
        if worth is not None:
            assert bound is not None
            assert 0 < bound <= worth[2]


def test_each_step_let_go_has_a_bound_of_its_own():
    """With all food eaten a reserve leaves no plan; without the reserve the bound is as before."""
    problem, followed = under_way(0)
    held = replace(problem, reserves=(Reserve("c2", "g1", ReserveKind.STORM, 1, "meal"),))
    step = LettingGo("we wait", kind=ReserveKind.STORM)
    firm, eased = least_peaks(held, followed, EXACT, letting_go=(step,), seconds=5.0)
    (bare,) = least_peaks(problem, followed, EXACT, seconds=5.0)
    assert (firm, eased) == (None, bare)


def test_what_lets_more_go_rules_out_nothing_that_lets_less_go():
    """A calendar is left aside for each number of steps that it may need, or not at all."""
    problem, followed = under_way(0)
    planned = searched(problem, followed).calendars[0]
    peak, days = planned.peak, planned.worth[1]
    assert NotPlanned(days, (peak,)).is_ruled_out((planned,), 0)
    assert not NotPlanned(days, (peak - 1,)).is_ruled_out((planned,), 0)
    assert NotPlanned(days, (peak - 1,)).is_ruled_out((planned,), 1)
    assert not NotPlanned(days - 1, (peak,)).is_ruled_out((planned,), 0)
    assert not NotPlanned(days, (peak, peak - 1)).is_ruled_out((planned,), 0)
    step = LettingGo("we wait", kind=ReserveKind.STORM)
    eased = replace(planned, rest=replace(planned.rest, let_go=(step,)))
    assert not NotPlanned(days, (peak,)).is_ruled_out((eased,), 0)
    assert NotPlanned(days, (None, peak)).is_ruled_out((eased,), 0)
    assert NotPlanned(days, (None, peak - 7)).gap_to(eased) == 7
    assert NotPlanned(days, (None, peak - 7)).gap_to(planned) == 0
    assert NotPlanned(days + 1, (0,)).gap_to(planned) == 0


def test_each_calendar_is_planned_from_what_was_counted():
    """With a lost bag of food the trips that are over stay, and what is lost is in no plan."""
    problem, followed = under_way(0)
    assert problem.history is not None
    lost = replace(problem, history=replace(problem.history, changes=(_lost(problem, followed),)))
    for one in searched(lost, followed).calendars:
        assert isinstance(one.rest.outcome, Solved)
        assert one.calendar.days[0] == problem.calendar.days[0]
        trips = [trip for trip in one.rest.outcome.plan.trips if trip.day == 1]
        assert trips == [trip for trip in followed.trips if trip.day == 1]
        last = [e for e in one.rest.outcome.plan.stock if e.day == len(one.calendar.days)]
        eaten = 2 * (len(one.calendar.days) - 1)
        home = sum(s.count for e in last for s in e.units if s.unit_id == "g1/meal")
        assert home == 10 - 1 - eaten


def _lost(problem: Problem, followed: Plan) -> Change:
    """One bag of food that stands at c1 in the evening of day 1, before dinner."""
    entry = next(e for e in followed.stock if (e.day, e.place_id) == (1, "c1"))
    assert any(stowed.unit_id == "g1/meal" for stowed in entry.units)
    return Change("c1", "g1/meal", -1)


def test_more_days_than_there_is_food_for_have_no_plan():
    """Of 10 sets 3 are gone: 7 are food for three nights of two people, so for four days."""
    problem, followed = under_way(0)
    assert problem.history is not None
    gone = replace(_lost(problem, followed), count=-3)
    found = searched(replace(problem, history=replace(problem.history, changes=(gone,))), followed)
    assert {len(one.calendar.days) for one in found.calendars} == {3, 4}
    assert (found.planned + found.aside, found.without_plan, found.left_open) == (4, 4, 0)


def test_what_the_leader_lets_go_counts_first():
    """All 10 sets are eaten in six days, so that a reserve of one night has to be let go then."""
    problem, followed = under_way(0)
    held = replace(problem, reserves=(Reserve("c2", "g1", ReserveKind.STORM, 1, "meal"),))
    step = LettingGo("we wait", kind=ReserveKind.STORM)
    found = find_rest_calendars(held, followed, RULES, EXACT, Watch(1e6), letting_go=(step,))
    assert found is not None
    steps = {len(one.calendar.days): len(one.rest.let_go) for one in found.calendars}
    assert steps[3] == 0
    assert steps[6] == 1
    assert [one.worth[0] for one in found.calendars] == sorted(steps.values())
    firm = searched(held, followed)
    assert max(len(one.calendar.days) for one in firm.calendars) < 6
    assert firm.planned < found.planned
    assert firm.left_open == 0


def test_a_search_without_time_leaves_everything_open():
    """Nothing is claimed of calendars that were not looked at."""
    problem, followed = under_way(0)
    found = find_rest_calendars(problem, followed, RULES, EXACT, Watch(0.0))
    assert found is not None
    assert (found.allowed, found.planned, found.without_plan, found.left_open) == (8, 0, 0, 8)
    assert found.calendars == ()


def test_a_calendar_that_is_faulty_has_no_plan():
    """Where a calendar makes no problem it is counted as one without a plan."""
    problem, followed = under_way(0)
    found = find_rest_calendars(
        problem, followed, RULES, EXACT, Watch(1e6), problem_of=lambda _: None
    )
    assert found is not None
    assert (found.planned, found.without_plan) == (0, 8)


def onward(words: str, day: int, **told: bool) -> Onward:
    """What is left of a calendar after the trips of a day."""
    left = Onward.of(replace(world(words), history=History(day, **told)))
    assert left is not None
    return left


def test_days_that_are_over_stay_as_they_were():
    """A carry and a rest of the past are no choices any more; those to come are."""
    left = onward("strip-c1-strip strip-c1 c1 c1-c2-c1 c1-c2 c2-c1-strip", 2)
    assert left.here.places == ("c1",)
    assert left.rests_here == 1
    assert words_of(left.calendar((2, 1, 1))) == (
        "strip-c1-strip strip-c1 c1 c1 c1-c2-c1 c1-c2 c2 c2-c1-strip"
    )
    own = left.calendar((1, 1, 0))
    assert left.carries(own) == {("c1", "c2"): 1}
    assert left.rests(own) == {"c1": 1}


def test_a_morning_begins_with_the_day_that_is_not_over():
    """In the morning of day 3 two days are over."""
    left = onward("strip-c1 c1 c1-c2 c2-c1-strip", 2, after_night=True)
    assert [words_of(left.calendar((n, 0, 0))) for n in (0, 1)] == [
        "strip-c1 c1 c1-c2 c2-c1-strip",
        "strip-c1 c1 c1 c1-c2 c2-c1-strip",
    ]


def test_on_the_way_home_only_the_waiting_is_left_to_choose():
    """After the last move the days are as given, once everybody has waited long enough."""
    words = "strip-c1 c1-c2 c2 c2-c1 c1-strip"
    problem = replace(world(words), history=History(2))
    left = onward(words, 2)
    rules = CalendarRules(most_days=6, rests=(0, 2))
    assert [words_of(one) for one in left.calendars(problem, rules)] == [
        words,
        "strip-c1 c1-c2 c2-c1 c1-strip",
        "strip-c1 c1-c2 c2 c2 c2-c1 c1-strip",
    ]


def test_the_calendar_of_the_plan_is_allowed_whatever_the_rules_are():
    """Two rests are more than the rules allow, but they are what people expect."""
    words = "strip-c1 c1 c1 c1-c2 c2-c1-strip"
    problem = replace(world(words), history=History(1))
    found = onward(words, 1).calendars(problem, CalendarRules(most_days=5, carries=(0, 0)))
    assert words_of(found[0]) == words
    none = onward(words, 1).calendars(problem, CalendarRules(most_days=3, carries=(0, 0)))
    assert none == ()


def test_people_who_part_have_no_calendars_to_choose():
    """Nor has an expedition that has not begun, or one that is over."""
    parted = Day((Visit(("a",), ("c1",)), Visit(("b",), ("c1", "strip", "c1"))))
    days = world("strip-c1 c1-strip").calendar.days
    problem = replace(world("strip-c1 c1-strip"), calendar=Calendar((days[0], parted, days[1])))
    assert Onward.of(replace(problem, history=History(1))) is None
    assert Onward.of(replace(problem, history=History(2))) is not None
    problem = world("strip-c1 c1-strip")
    assert Onward.of(problem) is None
    assert Onward.of(replace(problem, history=History(2))) is None
    assert find_rest_calendars(problem, Plan((), ()), RULES, EXACT, Watch(1.0)) is None


def test_equals_are_told_once():
    """Of two calendars with the same worth the first stays."""
    problem, followed = under_way(0)
    found = searched(problem, followed)
    first = found.calendars[0]
    assert worth_having((first, first)) == (first,)
