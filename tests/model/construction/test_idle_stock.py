"""Counted stock that no rule needs stays away."""

from __future__ import annotations

from dataclasses import replace

from solver.checker import check
from solver.model.assignment.read_plan import read_plan
from solver.model.construction.idle_stock import without_idle_stock
from solver.model.formulation.build_frame import build_frame
from solver.outcome import Limits, Solved
from solver.pipeline import plan
from solver.plan import Plan
from solver.problem import Problem
from solver.progress import Watch
from tests.benchmarks.glaciers import on_glaciers
from tests.benchmarks.instances import expedition, size_named

PROBLEM = expedition(size_named("small"), 1)


def _planned(problem: Problem) -> Plan:
    """The plan of the greedy heuristic, which every later step starts from."""
    outcome = plan(problem, Limits(), Watch(30.0, wish_to_stop=lambda: True))
    assert isinstance(outcome, Solved)
    return outcome.plan


def _at_start(problem: Problem, plan_: Plan) -> dict[str, int]:
    """Counted stock at the start before day 1."""
    frame = build_frame(problem)
    stock = {thing.unit_id for thing in frame.world.cargo if thing.is_stock}
    (night,) = (n for n in plan_.stock if n.day == 0 and n.place_id == problem.start_place)
    return {unit.unit_id: unit.count for unit in night.units if unit.unit_id in stock}


def _with_one_fewer(problem: Problem, plan_: Plan, unit_id: str) -> Plan:
    """The plan without one unit that would stand at the start from first to last."""
    nights = tuple(
        replace(
            night,
            units=tuple(
                replace(unit, count=unit.count - 1) if unit.unit_id == unit_id else unit
                for unit in night.units
            ),
        )
        if night.place_id == problem.start_place
        else night
        for night in plan_.stock
    )
    return replace(plan_, stock=nights)


def test_a_plan_takes_less_than_each_reserve_by_itself_and_passes_the_check() -> None:
    """The calendar alone gives each reserve its own; a plan takes fewer bags and cans."""
    for problem in (PROBLEM, on_glaciers(PROBLEM)):
        frame, planned = build_frame(problem), _planned(problem)
        by_calendar = {t.unit_id: t.count for t in frame.world.cargo if t.is_stock}
        taken = _at_start(problem, planned)
        assert all(taken[unit_id] <= by_calendar[unit_id] for unit_id in taken)
        assert sum(taken.values()) < sum(by_calendar.values())
        assert check(problem, planned).findings == ()


def test_one_unit_fewer_breaks_a_rule() -> None:
    """Of each kind that still stands at the start throughout, the checker asks for all."""
    planned, tried = _planned(PROBLEM), 0
    for unit_id in _at_start(PROBLEM, planned):
        nights = [n for n in planned.stock if n.place_id == PROBLEM.start_place]
        standing = [sum(u.count for u in n.units if u.unit_id == unit_id) for n in nights]
        if min(standing) > 0:
            fewer = _with_one_fewer(PROBLEM, planned, unit_id)
            assert check(PROBLEM, fewer).findings != ()
            tried += 1
    assert tried > 0


def test_a_count_that_the_request_gives_is_kept() -> None:
    """With every count given, the frame stays the same."""
    frame = build_frame(PROBLEM)
    counts = {thing.unit_id: thing.count for thing in frame.world.cargo}
    counted = replace(
        PROBLEM,
        night_sets=tuple(replace(one, bag_count=counts[one.unit_id]) for one in PROBLEM.night_sets),
        cook_groups=tuple(
            replace(
                group,
                containers=tuple(
                    replace(kind, count=counts[kind.unit_id]) for kind in group.containers
                ),
            )
            for group in PROBLEM.cook_groups
        ),
    )
    frame, planned = build_frame(counted), _planned(counted)
    draft = read_plan(frame, planned)
    assert draft is not None
    assert without_idle_stock(frame, draft) is frame
