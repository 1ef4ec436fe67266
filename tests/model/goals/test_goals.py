"""The goals in their order: each has a value and a bound, and no later one costs an earlier one."""

from __future__ import annotations

from dataclasses import replace

import pytest

from solver.checker import check
from solver.model.assignment.build_plan import build_plan
from solver.model.assignment.draft import Draft
from solver.model.assignment.former_loads import read_former
from solver.model.assignment.load_fractions import trip_fractions
from solver.model.formulation.build_frame import build_frame
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import spread_slack
from solver.model.goals import goal_values, goals_of, hard_days, mass_ascent, peak_load
from solver.model.goals.goal import SearchState, SearchTools
from solver.model.goals.mass_ascent import pack_under, within_tolerance
from solver.model.goals.pack_well import pack_well
from solver.model.solvers.relaxation import build_relaxation
from solver.model.solvers.relaxed_plans import relaxed_plans
from solver.outcome import Limits
from solver.plan import GoalValue
from solver.progress import Watch
from solver.rulebook.goals import PEAK_LOAD, goals_asked
from tests.model.frames import TWO, box, draft_of, problem_of, two_with
from tests.pipeline.one_leg import one_leg
from tests.rules.worlds import world

REGISTER = goals_asked(with_former=False)
LIMITS = Limits(wall_seconds=20.0, workers=1, seed=1, gap=0, tolerance=500)
FRAME = two_with(*(box(f"b{n}", 6_000) for n in range(3)))
ALL_ON_ONE = draft_of(FRAME, {"m1": "b0 b1 b2 g1/meal*2"}, {"m1": "b0 b1 b2"})
GOOD = draft_of(FRAME, {"m1": "b0 b1", "m2": "b2 g1/meal*2"}, {"m1": "b0 b1", "m2": "b2"})


def _tools(frame: Frame, limits: Limits = LIMITS) -> SearchTools:
    relaxation = build_relaxation(frame)
    watch = Watch(20.0)
    found = relaxed_plans(relaxation, limits, watch, start=None, peak=None)
    return SearchTools(relaxation, found, limits, watch)


def _state(draft: Draft, bound: int = 0) -> SearchState:
    return SearchState(draft, {PEAK_LOAD: bound})


def test_model_and_checker_take_the_goals_in_the_order_of_the_register() -> None:
    """Both list the register's goals, and the peak comes first."""
    order = [goal.goal_id for goal in REGISTER]
    assert [goal_id for goal_id, _ in goals_of(FRAME)] == order
    report = check(problem_of(FRAME), build_plan(FRAME, GOOD))
    assert [goal_id for goal_id, _ in report.goals] == order
    assert order[0] == PEAK_LOAD


@pytest.mark.parametrize("draft", [ALL_ON_ONE, GOOD])
def test_model_and_checker_value_a_draft_alike(draft: Draft) -> None:
    """Each goal comes to the same in the draft and in the plan that it becomes."""
    ours = {goal.goal_id: goal.value for goal in goal_values(FRAME, _state(draft))}
    assert ours == dict(check(problem_of(FRAME), build_plan(FRAME, draft)).goals)


def test_a_goal_is_proven_where_its_bound_is_reached_within_its_precision() -> None:
    """A bound that lacks less than the register's precision proves; without one nothing does."""
    ascent = mass_ascent.value(FRAME, GOOD)
    for lack, proven in ((0, True), (10, True), (1_000, False)):
        state = _state(GOOD, 6_000).with_bound("mass_ascent", ascent - lack)
        by_id = {goal.goal_id: goal for goal in goal_values(FRAME, state)}
        assert by_id["mass_ascent"].proven is proven
        assert by_id[PEAK_LOAD] == GoalValue(PEAK_LOAD, 6_000, 6_000, True, REGISTER[0].unit)
        assert (by_id["hard_days"].bound, by_id["hard_days"].proven) == (None, False)


def test_a_state_keeps_its_bounds_where_no_other_was_found() -> None:
    """A bound is added to a new state; None changes nothing."""
    state = _state(GOOD)
    assert state.with_bound("hard_days", None) is state
    assert state.with_bound("hard_days", 7).bounds == {PEAK_LOAD: 0, "hard_days": 7}
    assert state.bounds == {PEAK_LOAD: 0}


def test_the_peak_is_lowered_and_proven() -> None:
    """Three boxes of 6 kg in one pack of 20 kg come down to two in one, which is the least."""
    state = peak_load.improve(_state(ALL_ON_ONE), _tools(FRAME))
    assert (peak_load.value(FRAME, state.draft), peak_load.bound(state)) == (6_000, 6_000)
    assert peak_load.improve(state, _tools(FRAME)) is state


def test_hard_days_lower_each_trip_and_prove_it() -> None:
    """Of three pieces two are in one pack: 96 % out, three steps above 90, and little home."""
    frame = build_frame(one_leg([6_000] * 3, people=2, cap_g=12_500))
    pieces = [f"piece-{n}" for n in (1, 2, 3)]
    uneven = draft_of(
        frame, {"m1": " ".join(pieces[:2]), "m2": pieces[2]}, {"m1": " ".join(pieces)}
    )
    state = hard_days.improve(_state(uneven, 9_600), _tools(frame))
    assert hard_days.value(frame, state.draft) == 200 + 400 + 800
    assert hard_days.bound(state) == 200 + 400 + 800
    assert trip_fractions(frame, state.draft)[1] < trip_fractions(frame, uneven)[1]


@pytest.mark.parametrize("is_new", [True, False])
def test_near_to_a_former_plan_only_new_trips_are_lowered(is_new: bool) -> None:
    """m1 had all three boxes on the way home, and keeps them; a trip out that is new is lowered."""
    former = read_former(FRAME, build_plan(FRAME, ALL_ON_ONE))
    if is_new:
        former.had[0].clear()
    frame = replace(FRAME, former=former)
    after = hard_days.improve(_state(ALL_ON_ONE), _tools(frame)).draft
    before, lowered = trip_fractions(frame, ALL_ON_ONE), trip_fractions(frame, after)
    assert lowered[1] == before[1] == 9_000
    assert lowered[0] == (6_000 if is_new else before[0])


def test_a_trip_that_misses_its_aim_is_packed_exactly() -> None:
    """All three boxes in one pack become two and one, whatever the aim."""
    held = {(cargo, carrier): n for (cargo, t, carrier), n in ALL_ON_ONE.carried.items() if t == 0}
    slack = spread_slack(FRAME, ALL_ON_ONE.rides())[0]
    answer = pack_well(FRAME, 0, held, LIMITS, Watch(20.0), slack=slack, aim=4_505)
    assert answer.held is not None
    draft = Draft({(cargo, 0, who): n for (cargo, who), n in answer.held.items()})
    assert peak_load.value(FRAME, draft) == 6_000
    assert answer.bound <= 6_000


def test_less_mass_goes_up_where_no_trip_grows() -> None:
    """A box that went up and down and up again goes up once."""
    problem = world("strip-c1-strip strip-c1 c1-strip", people=TWO, gear=(box("box", 5_000),))
    frame = build_frame(problem)
    there_and_back = draft_of(
        frame, {"m1": "box"}, {"m1": "box"}, {"m1": "box", "m2": "g1/meal*2"}, {"m1": "box"}
    )
    assert mass_ascent.value(frame, there_and_back) == (2 * 5_000 + 2 * 10) * 1_000
    state = mass_ascent.improve(_state(there_and_back), _tools(frame))
    assert mass_ascent.value(frame, state.draft) == (5_000 + 2 * 10) * 1_000
    assert mass_ascent.bound(state) == pytest.approx(5_020_000, rel=1e-6)


def test_trips_get_a_little_fuller_and_never_beyond_the_peak() -> None:
    """5 % lift 40 % to 42 %, 59 % to the peak of 60 %, none beyond 90 %; light ones fill up.

    A hard one rises by a tolerance of its own.
    """
    fractions = [4_000, 5_900, 0]
    for light, limits in ((0, (4_200, 6_000, 0)), (5_000, (5_000, 6_000, 5_000))):
        assert limits == within_tolerance(fractions, peak=6_000, tolerance=500, light=light)
    assert within_tolerance(fractions, peak=6_000, tolerance=0, light=9_000) == (6_000,) * 3
    hard = within_tolerance([9_500, 8_950], peak=9_900, tolerance=500, light=0)
    assert hard == (9_500, 9_000)
    harder = within_tolerance([9_500, 8_950, 9_895], peak=9_900, tolerance=0, light=0, hard=10)
    assert harder == (9_509, 8_950, 9_900)
    state = mass_ascent.improve(_state(GOOD), _tools(FRAME))
    assert state.trip_limits == (6_000, 6_000)


def test_all_goals_in_turn_keep_the_ones_before() -> None:
    """From the worst draft on, no goal's value rises once it was taken but within the tolerance."""
    tools = _tools(FRAME, replace(LIMITS, tolerance=0, light_trip_share=0))
    state = _state(ALL_ON_ONE)
    reached: dict[str, int] = {}
    for goal_id, goal in goals_of(FRAME):
        state = goal.improve(state, tools)
        for earlier, value in reached.items():
            assert dict(goals_of(FRAME))[earlier].value(FRAME, state.draft) <= value
        reached[goal_id] = goal.value(FRAME, state.draft)
    assert list(reached.values())[:2] == [6_000, 0]


def test_a_light_trip_may_get_fuller_for_less_ascent_and_a_hard_one_not() -> None:
    """Of three boxes of 6 kg one pack of 20 kg gets two: 60 %, free up to 90 % and not to 50 %."""
    tools = _tools(FRAME)
    rides, limits = GOOD.rides(), [4_500, 10_000]
    found = pack_under(tools, Draft({}), rides, limits, 9_000)
    assert isinstance(found, Draft)
    assert found.rides() == rides
    assert trip_fractions(FRAME, found)[0] >= 6_000
    assert pack_under(tools, Draft({}), rides, limits, 5_000) == 0
