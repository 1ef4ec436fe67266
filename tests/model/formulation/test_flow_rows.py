"""Stock as a sum over rides, and every row on rides that follows from it."""

from __future__ import annotations

from solver.model.formulation.build_frame import build_frame, sort_rows
from solver.model.formulation.flow_balance import left_after_loss, stock_terms, within_reach
from solver.model.formulation.flow_row import FlowRow
from solver.model.formulation.flow_rows import flow_rows, keeps_flow_rows
from solver.model.rows import LossRow, SomeRideRow
from solver.model.rules import build_rows
from tests.model.frames import box, index_of, two_with
from tests.rules.worlds import world


def test_stock_is_what_came_less_what_left_and_was_used() -> None:
    """At c1 after the night: what rode up, less the two bags used and what rode down."""
    frame = two_with()
    bag, clock = index_of(frame, "g1/meal"), frame.world.clock
    night = clock.night_event[1]
    terms, constant = stock_terms(frame, bag, "c1", night)
    assert (terms, constant) == ({(bag, 0): 1}, -2)
    assert stock_terms(frame, bag, "strip", 0) == ({}, 2)


def test_stock_within_reach_adds_places_up() -> None:
    """A unit that rides from one of the places to the other stays within reach."""
    frame = two_with()
    bag = index_of(frame, "g1/meal")
    total, constant = within_reach(frame, ((bag, 3),), ("strip", "c1"), 1)
    assert (total[bag, 0], constant) == (0, 6)
    loss = LossRow("x", 0, ("strip", "c1"), ((bag, 3),), 2)
    assert left_after_loss(frame, loss) == FlowRow("x", (), 4)


def test_rows_of_rides_are_worked_out_once_and_say_which_rides_are_enough() -> None:
    """Both bags must ride up: two do, one does not; the rows are kept in the frame's cache."""
    frame = two_with()
    bag = index_of(frame, "g1/meal")
    assert frame.cache.rows is None
    assert flow_rows(frame) is flow_rows(frame) is frame.cache.rows
    assert keeps_flow_rows(frame, {(bag, 0): 2})
    assert not keeps_flow_rows(frame, {(bag, 0): 1})


def test_a_settled_ride_stands_in_a_row_as_a_number() -> None:
    """A box with one way up and down has no choice, so that no row is left to hold."""
    frame = two_with(box("box", 1_000))
    cargo = index_of(frame, "box")
    assert {(cargo, 0), (cargo, 1)} <= frame.settled
    assert all(ride[0] != cargo for row in flow_rows(frame) for ride, _ in row.terms)


def test_a_row_that_nothing_can_keep_has_no_terms() -> None:
    """Three of a thing that there is only one of: the row stays, with nothing to choose."""
    problem = world("strip-c1 c1-strip", gear=(box("box", 1_000),))
    frame = build_frame(problem)
    cargo = index_of(frame, "box")
    asked = SomeRideRow("stove_when_far", 0, ((cargo, 1),), 3)
    more = sort_rows(frame.world, [*build_rows(frame.world), asked])
    (row,) = [row for row in flow_rows(more) if row.about == asked]
    assert row.constant + sum(factor * 1 for _, factor in row.terms) < 0
