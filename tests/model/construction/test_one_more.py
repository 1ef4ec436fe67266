"""One more container where the loss of a carrier would leave too little."""

from __future__ import annotations

from dataclasses import replace

from solver.model.construction.greedy_failure import Unpacked
from solver.model.construction.one_more import one_more
from solver.model.formulation.build_frame import build_frame, sort_rows
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import spread_slack
from solver.model.packing.longest_first import packed_trip
from solver.model.rows import LossRow
from solver.model.rules import build_rows
from tests.model.frames import TWO, index_of
from tests.rules.worlds import world

MOVES = "strip-c1 c1-strip"


def _unpacked(bags: int, at_least: int) -> tuple[Frame, dict[tuple[int, int], int], Unpacked]:
    """Two bags ride to c1, and so many are left there if one carrier is lost."""
    plain = build_frame(world(MOVES, people=TWO))
    bag = index_of(plain, "g1/meal")
    cargo = tuple(
        replace(thing, count=bags) if thing.index == bag else thing for thing in plain.world.cargo
    )
    row = LossRow("food_survives_loss", 0, ("c1",), ((bag, 1),), at_least)
    frame = sort_rows(replace(plain.world, cargo=cargo), [*build_rows(plain.world), row])
    rides = {(bag, 0): 2}
    slack = spread_slack(frame, rides)[0]
    return frame, rides, Unpacked(0, packed_trip(frame, 0, {bag: 2}, slack), slack)


def test_an_idle_bag_goes_to_where_too_little_would_be_left() -> None:
    """Two bags ride and two must be left: a third comes along from the start, and home again."""
    frame, rides, unpacked = _unpacked(bags=3, at_least=2)
    assert unpacked.slack[-1] == 0
    found = one_more(frame, rides, unpacked)
    home = (frame.world.clock.last, "strip")
    begin = frame.world.clock.trip_event[0] - 1
    assert found == (index_of(frame, "g1/meal"), [(begin, "strip"), home])


def test_nothing_more_comes_where_none_is_left_or_none_is_missing() -> None:
    """Without a third bag there is none to take, and with one that must be left none is needed."""
    assert one_more(*_unpacked(bags=2, at_least=2)) is None
    assert one_more(*_unpacked(bags=3, at_least=1)) is None
