"""Closeness: what is counted, by model and checker, and that no nearer plan is missed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations_with_replacement, product
from types import SimpleNamespace
from typing import cast

import pytest

from solver.checker import check_plan, check_request
from solver.checker.queries.former import units_changed
from solver.model.assignment.build_plan import build_plan
from solver.model.assignment.draft import Draft
from solver.model.assignment.former_loads import changes, had_by, read_former
from solver.model.assignment.load_fractions import trip_fractions
from solver.model.formulation.former import Former
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import spread_slack
from solver.model.goals import closeness, swaps
from solver.model.goals.goal import SearchState, SearchTools
from solver.model.run import Run
from solver.model.solvers.closest_trip import closest_trip
from solver.model.solvers.nearest_rides import nearest_rides
from solver.outcome import Limits, Solved
from solver.pipeline import plan
from solver.plan import Plan
from solver.problem import Person
from solver.progress import Watch
from tests.checker.replaying import replay_of
from tests.model.frames import box, draft_of, index_of, problem_of, two_with
from tests.rules.worlds import item, person, world

LIMITS = Limits(wall_seconds=10.0, workers=1, gap=0)
WATCH = Watch(10.0)
FRAME = two_with(*(box(f"b{n}", 2_000 + 500 * n) for n in range(4)))
BEFORE = draft_of(FRAME, {"m1": "b0 b3", "m2": "b1 b2 g1/meal*2"}, {"m1": "b0 b3", "m2": "b1 b2"})


def _near(frame: Frame, draft: Draft) -> Frame:
    """The frame with the plan of a draft to stay near to."""
    return replace(frame, former=read_former(frame, build_plan(frame, draft)))


def test_units_with_people_who_did_not_have_them_are_counted() -> None:
    """A box and a meal that go to somebody else are two; nothing is counted for what is kept."""
    frame = _near(FRAME, BEFORE)
    after = draft_of(
        frame, {"m1": "b0 b3 b1 g1/meal", "m2": "b2 g1/meal"}, {"m1": "b0 b3", "m2": "b1 b2"}
    )
    assert (closeness.value(frame, BEFORE), closeness.value(frame, after)) == (0, 2)
    assert closeness.value(FRAME, after) == 0
    assert frame.former is not None
    assert changes(frame.former, had_by(frame, after)) == 2
    assert closeness.bound(SearchState(after, {})) == 0
    replayed = replay_of(
        problem_of(frame),
        {"m1": "b0 b3 b1 g1/meal", "m2": "b2 g1/meal"},
        {"m1": "b0 b3", "m2": "b1 b2"},
    )
    assert units_changed(replayed, build_plan(frame, BEFORE)) == 2


def test_what_is_gone_does_not_count_and_days_may_have_moved() -> None:
    """Without b3, and with a day of rest before the way down, the same loads change nothing."""
    gear = tuple(box(f"b{n}", 2_000 + 500 * n) for n in range(3))
    later = two_with(*gear, days="strip-c1 c1 c1-strip")
    frame = replace(later, former=read_former(later, build_plan(FRAME, BEFORE)))
    assert frame.former is not None
    assert [sorted(had) for had in frame.former.had] == [
        [("b0", "m1"), ("b1", "m2"), ("b2", "m2"), ("g1/meal", "m2")],
        [("b0", "m1"), ("b1", "m2"), ("b2", "m2")],
    ]
    assert frame.former.rides(1) == Counter({"b0": 1, "b1": 1, "b2": 1})


def test_a_trip_is_shared_out_with_the_fewest_changes_under_its_limit() -> None:
    """m1's cap is lower now: the lighter box goes over, and the heavy one stays."""
    caps = replace(person("m1").caps, pack_g=9_000)
    people = (replace(person("m1"), caps=caps), person("m2"))
    frame = two_with(box("heavy", 5_000), box("light", 2_000), box("own", 3_000), people=people)
    before = {"m1": "heavy light own", "m2": "g1/meal*2"}
    frame = _near(frame, draft_of(frame, before, {"m1": "heavy light own"}))
    rides = draft_of(frame, before, {"m1": "heavy light own"}).rides()
    units = {cargo: count for (cargo, trip), count in rides.items() if trip == 1}
    assert frame.former is not None
    held = closest_trip(
        frame, 1, units, spread_slack(frame, rides)[1], Run(5.0), former=frame.former, limit=10_000
    )
    assert held is not None
    went = [name for name in ("heavy", "light", "own") if held.get((index_of(frame, name), "m2"))]
    assert len(went) == 1
    assert (
        closest_trip(
            frame,
            1,
            units,
            spread_slack(frame, rides)[1],
            Run(5.0),
            former=frame.former,
            limit=1_000,
        )
        is None
    )


def test_fewer_changes_come_before_fewer_single_pieces() -> None:
    """m1 must give up 6 kg: five single boxes of 1.2 kg go, not six bottles of 1 kg."""
    boxes = [box(f"b{n}", 1_200) for n in range(5)]
    caps = replace(person("m1").caps, pack_g=6_000)
    people = (replace(person("m1"), caps=caps), person("m2"))
    frame = two_with(*boxes, box("bottle", 1_000, count=6), people=people)
    before = {"m1": "b0 b1 b2 b3 b4 bottle*6", "m2": "g1/meal*2"}
    draft = draft_of(frame, before, {"m1": before["m1"]})
    frame = _near(frame, draft)
    units = {cargo: count for (cargo, trip), count in draft.rides().items() if trip == 1}
    assert frame.former is not None
    held = closest_trip(
        frame,
        1,
        units,
        spread_slack(frame, draft.rides())[1],
        Run(5.0),
        former=frame.former,
        limit=10_000,
    )
    assert held is not None
    went = {frame.world.cargo[cargo].unit_id: n for (cargo, who), n in held.items() if who == "m2"}
    assert went == {f"b{n}": 1 for n in range(5)}


def test_rides_stay_as_they_were_where_the_peak_allows() -> None:
    """A box that went ahead on the second carry goes on the second one still."""
    ahead = replace(box("a", 3_000), need=replace(box("a", 1).need, may_go_ahead=True))
    frame = two_with(ahead, days="strip-c1-strip strip-c1 c1-strip")
    trips = ({}, {}, {"m1": "a", "m2": "g1/meal*4"}, {"m1": "a"})
    near = _near(frame, draft_of(frame, *trips))
    assert near.former is not None
    rides = nearest_rides(
        near, near.former, LIMITS, peak_at_most=10_000, seconds=5.0, should_stop=lambda: False
    )
    assert rides is not None
    assert [trip for cargo, trip in rides if cargo == index_of(near, "a")] == [2, 3]


def _all_plans(frame: Frame) -> Iterator[Draft]:
    """Every way of sharing out what rides, with all of it on every trip that it may ride."""
    rides = BEFORE.rides()
    ways = [
        [
            [(cargo, trip, who) for who in whose]
            for whose in combinations_with_replacement(("m1", "m2"), units)
        ]
        for (cargo, trip), units in rides.items()
    ]
    for chosen in product(*ways):
        yield Draft(dict(Counter(key for way in chosen for key in way)))


@pytest.mark.parametrize("lower_g", [1_000, 6_000])
@pytest.mark.parametrize("who", ["m1", "m2"])
def test_no_nearer_plan_is_missed_on_a_tiny_world(who: str, lower_g: int) -> None:
    """Of all plans within the tolerance of the least peak, by the checker, none changes less."""
    former = build_plan(FRAME, BEFORE)
    problem = problem_of(FRAME)

    def lowered(person_: Person) -> Person:
        caps = replace(person_.caps, pack_g=person_.caps.pack_g - lower_g)
        return replace(person_, caps=caps) if person_.person_id == who else person_

    roster = tuple(map(lowered, problem.roster))
    problem = replace(problem, roster=roster)
    frame = two_with(*problem.gear, people=roster)
    request = check_request(problem)
    reports = [check_plan(request, build_plan(frame, one), former) for one in _all_plans(frame)]
    goals = [dict(report.goals) for report in reports if not report.findings]
    limit = min(one["peak_load"] for one in goals) * (10_000 + LIMITS.near_tolerance) // 10_000
    least = min(one["closeness"] for one in goals if one["peak_load"] <= limit)
    found = plan(problem, LIMITS, near=former)
    assert isinstance(found, Solved)
    values = {goal.goal_id: goal.value for goal in found.goals}
    assert values["peak_load"] <= limit
    assert values["closeness"] == least


def test_a_plan_that_still_stands_does_not_change() -> None:
    """Near to its own answer, the answer to the same request is the same loads."""
    first = plan(problem_of(FRAME), LIMITS)
    assert isinstance(first, Solved)
    again = plan(problem_of(FRAME), LIMITS, near=first.plan)
    assert isinstance(again, Solved)
    assert {goal.goal_id: goal.value for goal in again.goals}["closeness"] == 0
    assert again.plan.trips == first.plan.trips


def test_a_later_goal_that_leads_away_is_not_taken() -> None:
    """Of a state that is further from the former plan only the bounds are kept."""
    frame = _near(FRAME, BEFORE)
    other = draft_of(
        frame, {"m2": "b0 b3", "m1": "b1 b2 g1/meal*2"}, {"m1": "b0 b3", "m2": "b1 b2"}
    )
    before, after = SearchState(BEFORE, {}), SearchState(other, {"swaps": 1})
    assert closeness.keep_close(frame, before, after) == SearchState(BEFORE, {"swaps": 1})
    assert closeness.keep_close(FRAME, before, after) == after


def test_a_former_plan_of_another_party_takes_the_trip_with_most_of_the_same_people() -> None:
    """Two parties go the same way in one step; each is compared with its own."""
    people = (person("m1"), replace(person("m2"), rope_team_id="other"))
    problem = world("strip-c1 c1-strip", people=people, gear=(item("rope"),))
    replayed = replay_of(problem, {"m1": "rope"}, {"m1": "rope"})
    former = Plan(trips=tuple(reversed(replayed.plan.trips)), stock=())
    assert units_changed(replayed, former) == 0


def test_a_former_is_one_entry_for_each_trip() -> None:
    """People and packs of a former plan stand side by side."""
    had = Counter({("a", "m1"): 2})
    assert Former((had,), (had,)).rides(0) == Counter({"a": 2})


def test_people_keep_what_they_had_though_they_swap() -> None:
    """b0 and b1 change hands in the former plan; near to it they still do, without a search."""
    swapping = draft_of(
        FRAME, {"m1": "b0 b3", "m2": "b1 b2 g1/meal*2"}, {"m1": "b1 b3", "m2": "b0 b2"}
    )
    frame = _near(FRAME, swapping)
    limits = tuple(trip_fractions(frame, swapping))
    before = SearchState(swapping, {}, trip_limits=limits)
    after = swaps.improve(before, cast("SearchTools", SimpleNamespace(frame=frame, watch=WATCH)))
    assert after.draft is swapping
    assert swaps.value(frame, swapping) > (swaps.bound(after) or 0) >= 0
    free = swaps.improve(before, cast("SearchTools", SimpleNamespace(frame=FRAME, watch=WATCH)))
    assert swaps.value(FRAME, free.draft) < swaps.value(FRAME, swapping)
    assert closeness.value(frame, free.draft) > 0
