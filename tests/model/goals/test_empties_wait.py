"""Empty containers are not left alone where nobody sleeps."""

from __future__ import annotations

from dataclasses import replace

from solver.checker import check
from solver.model.assignment.build_plan import build_plan
from solver.model.assignment.draft import Draft
from solver.model.formulation.build_frame import build_frame
from solver.model.formulation.frame import Frame
from solver.model.goals.empties_wait import empties_wait
from solver.plan import Plan
from solver.problem import Container, CookGroup, RuleSettings
from tests.model.frames import index_of
from tests.rules.worlds import MEAL, world

DAYS = "strip-c1-c2 c2-c1-c2 c2-c1-strip"
"""Nights at c2; on day 2 people go down to c1 and back, where nobody sleeps."""

WAY_UP, CARRY, WAY_DOWN = (0, 1), (2, 3), (4, 5)


def _frame() -> Frame:
    can = Container("can", "g1", 100, tare_g=100, volume_ml=500, count=2)
    set_at = tuple((place, "meal") for place in ("strip", "c1", "c2"))
    off = frozenset({"fuel_spread", "fuel_in_two_containers"})
    problem = world(
        DAYS,
        groups=(CookGroup("g1", set_at, (can,)),),
        night_sets=(replace(MEAL, fuel_ml=100),),
        rules=RuleSettings(switched_off=off),
    )
    return build_frame(problem)


def _draft(frame: Frame, first_down: int) -> Draft:
    """The can that was emptied on night 1 goes to c1 on a trip; the other rides up on day 1."""
    can, bag = index_of(frame, "g1/can"), index_of(frame, "g1/meal")
    empties = [index_of(frame, f"g1/can/empty-{n}") for n in (1, 2)]
    carried = {(cargo, trip, "m1"): 2 for cargo in (can, bag) for trip in WAY_UP}
    carried |= {(empties[0], trip, "m1"): 1 for trip in (first_down, 5)}
    carried |= {(empties[1], trip, "m1"): 1 for trip in WAY_DOWN}
    return Draft(carried)


def _alone_at(plan: Plan, place_id: str) -> list[int]:
    """The days at whose end an empty stands at a place."""
    return [
        night.day
        for night in plan.stock
        if night.place_id == place_id and any("empty" in unit.unit_id for unit in night.units)
    ]


def test_an_empty_that_would_be_alone_for_a_night_waits_where_people_sleep() -> None:
    """Taken down on the carry, it is alone at c1 on night 2; it goes down with its people."""
    frame = _frame()
    early = _draft(frame, first_down=2)
    assert _alone_at(build_plan(frame, early), "c1") == [2]
    found = empties_wait(frame, early, [10_000] * 6)
    assert _alone_at(build_plan(frame, found), "c1") == []
    assert found.carried == _draft(frame, first_down=4).carried
    assert check(frame.world.problem, build_plan(frame, found)).findings == ()


def test_an_empty_goes_early_where_the_later_trip_has_no_room() -> None:
    """With a limit that the way down has reached already, the draft stays as it is."""
    frame = _frame()
    early = _draft(frame, first_down=2)
    assert empties_wait(frame, early, [0] * 6) == early


def test_an_empty_that_goes_down_with_its_people_stays_in_their_loads() -> None:
    """Nothing changes where no empty is alone."""
    frame = _frame()
    late = _draft(frame, first_down=4)
    assert empties_wait(frame, late, [10_000] * 6) == late
