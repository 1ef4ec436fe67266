"""The rest of drawn expeditions: unchanged where nothing happened, never worse, always checked."""

from collections import Counter
from dataclasses import replace
from random import Random

import pytest

from solver.checker import check_plan
from solver.errors import FaultyProblemError
from solver.outcome import Infeasible, Solved, SolveRecord
from solver.problem import Change, History, ReserveKind
from solver.progress import Watch
from solver.rest.planning import plan_rest
from solver.rest.result import LettingGo
from tests.rest.under_way import QUICK, at, drawn_event, followed, moments

SEEDS = range(12)


@pytest.mark.parametrize("kind", ["tiny", "glacier"])
@pytest.mark.parametrize("seed", SEEDS)
def test_where_nothing_happened_the_plan_stands(kind: str, seed: int):
    """At every moment the followed plan comes back as it is, trip by trip and night by night."""
    if (drawn := followed(kind, seed)) is None:
        pytest.skip("this drawn world has no plan")
    problem, plan = drawn
    for moment in moments(problem):
        rest = plan_rest(at(problem, moment), plan, QUICK)
        assert rest.is_unchanged
        assert isinstance(rest.outcome, Solved)
        assert rest.outcome.plan.trips == plan.trips
        assert rest.outcome.plan.stock == plan.stock


@pytest.mark.parametrize("kind", ["tiny", "glacier"])
@pytest.mark.parametrize("seed", SEEDS)
def test_the_rest_searched_anew_is_no_worse(kind: str, seed: int, monkeypatch):
    """Searched without the followed plan, the rest has a plan with no higher peak."""
    if (drawn := followed(kind, seed)) is None:
        pytest.skip("this drawn world has no plan")
    problem, plan = drawn
    for moment in moments(problem):
        known = plan_rest(at(problem, moment), plan, QUICK).outcome
        with monkeypatch.context() as patched:
            patched.setattr("solver.rest.planning._as_it_is", lambda *_: None)
            searched = plan_rest(at(problem, moment), plan, QUICK).outcome
        assert isinstance(known, Solved)
        assert isinstance(searched, Solved)
        assert searched.peak.value <= known.peak.value


@pytest.mark.parametrize("kind", ["tiny", "glacier"])
def test_whatever_happens_model_and_checker_agree(kind: str):
    """Losses, finds, burnt fuel, lost sleds and waits: a plan that the checker passes, or none.

    A disagreement would raise WithheldPlanError.
    """
    chance, ended = Random(3), Counter[str]()
    for seed in range(25):
        if (drawn := followed(kind, seed)) is not None:
            event = drawn_event(*drawn, chance)
            rest = plan_rest(event, drawn[1], QUICK, wait_nights=chance.choice((0, 0, 1, 2)))
            ended[type(rest.outcome).__name__] += 1
    assert ended["Solved"] >= 3
    assert ended["Infeasible"] >= 1
    assert set(ended) <= {"Solved", "Infeasible"}


def _three():
    drawn = followed("tiny", 1)
    assert drawn is not None
    return drawn


def test_all_food_lost_is_said_by_group_and_amount():
    """When every bag is gone, the refusal says how many night sets are lacking."""
    for seed in range(30):
        drawn = followed("tiny", seed)
        if drawn is None or not drawn[0].night_sets:
            continue
        problem, plan = drawn
        moment = moments(problem)[0]
        problem = replace(problem, reserves=())
        bags = {one.unit_id for one in problem.night_sets}
        entries = [entry for entry in plan.stock if entry.day == 0]
        taken = [(e.place_id, u.unit_id, u.count) for e in entries for u in e.units]
        lost = [Change(p, unit, -count) for p, unit, count in taken if unit in bags]
        if not lost or moment.day != 1:
            continue
        rest = plan_rest(at(problem, moment, *lost), plan, QUICK)
        if isinstance(rest.outcome, Infeasible) and rest.outcome.conflicts:
            conflict = rest.outcome.conflicts[0]
            assert conflict.rule_id == "night_sets_held"
            assert "more than there are anywhere" in conflict.message
            assert conflict.amount is not None
            assert conflict.amount > 0
            return
    pytest.fail("no drawn world has bags to lose")


def test_a_moment_outside_the_calendar_is_a_fault():
    """The past ends on a day that leaves another one; anything else is said with its place."""
    problem, plan = _three()
    last = len(problem.calendar.days)
    for day in (0, last, last + 5):
        with pytest.raises(FaultyProblemError) as faulty:
            plan_rest(at(problem, History(day)), plan, QUICK)
        assert [fault.code for fault in faulty.value.faults] == ["out_of_range"]
    with pytest.raises(FaultyProblemError):
        plan_rest(replace(problem, history=None), plan, QUICK)


def test_an_unknown_place_is_a_fault():
    """What was counted at a place that the route does not have is no count."""
    problem, plan = _three()
    with pytest.raises(FaultyProblemError) as faulty:
        plan_rest(at(problem, History(1), Change("moon", "i0", 1)), plan, QUICK)
    assert [fault.code for fault in faulty.value.faults] == ["unknown_id"]


def test_the_leaders_order_is_gone_through_until_a_plan_is_found():
    """Only the steps that were needed are taken, and what they give up is told."""
    tried = 0
    for seed in range(60):
        drawn = followed("tiny", seed)
        if drawn is None or not any(r.kind is ReserveKind.STORM for r in drawn[0].reserves):
            continue
        problem, plan = drawn
        order = [LettingGo("we go down", kind=ReserveKind.STORM)]
        for moment in moments(problem):
            strict = plan_rest(at(problem, moment), plan, QUICK, wait_nights=1)
            if isinstance(strict.outcome, Infeasible):
                bent = plan_rest(at(problem, moment), plan, QUICK, wait_nights=1, letting_go=order)
                assert all(step.reason == "we go down" for step in bent.let_go)
                assert {one.reserve.kind for one in bent.spent} <= {ReserveKind.STORM}
                tried += 1
            else:
                assert strict.let_go == ()
        if tried > 3:
            return
    assert tried


@pytest.mark.parametrize("wish", ["finish", "stop"])
def test_a_wish_to_finish_does_not_end_the_leaders_order(wish: str, monkeypatch):
    """Refused whatever is let go, every step is tried until somebody wishes to stop at once."""
    (problem, plan), moment = next(
        (drawn, moments(drawn[0])[0])
        for drawn in (followed("tiny", seed) for seed in range(60))
        if drawn is not None and any(r.kind is ReserveKind.STORM for r in drawn[0].reserves)
    )
    refused = Infeasible((), SolveRecord("none", 0, 0, ()))
    monkeypatch.setattr("solver.rest.planning._as_it_is", lambda *_: None)
    monkeypatch.setattr("solver.rest.planning._plan", lambda rest, *_: (rest, refused))
    order = [LettingGo("we go down", kind=ReserveKind.STORM)]
    watch = Watch(QUICK.wall_seconds)
    setattr(watch, f"wish_to_{wish}", lambda: True)
    rest = plan_rest(at(problem, moment), plan, QUICK, watch, letting_go=order)
    assert (rest.let_go != ()) == (wish == "finish")


def test_a_plan_that_broke_is_not_measured(monkeypatch):
    """The first finding is enough to know that the plan does not stand; no goal of it is counted.

    A plan that stands is measured, for its figures are in the answer.
    """
    problem, plan = _three()
    measured: list[str] = []
    monkeypatch.setattr(
        "solver.rest.planning.check_plan",
        lambda request, *plans: measured.append("plan") or check_plan(request, *plans),
    )
    assert plan_rest(at(problem, History(1)), plan, QUICK).is_unchanged
    assert measured == ["plan"]
    weaker = tuple(replace(one, caps=replace(one.caps, pack_g=1)) for one in problem.roster)
    broken = at(replace(problem, roster=weaker), History(1))
    assert not plan_rest(broken, plan, QUICK).is_unchanged
    assert measured == ["plan"]
