"""Rides eased where a trip cannot be packed."""

from __future__ import annotations

from solver.model.construction.ease_trip import ease_trip
from solver.model.construction.trip_fill import TripFill
from solver.model.formulation.build_frame import build_frame
from solver.model.formulation.flow_rows import keeps_flow_rows
from solver.model.formulation.frame import Frame
from solver.problem import Need, NeedKind
from tests.model.frames import TWO, index_of
from tests.rules.worlds import item, world

CARRY = "strip-c1-strip strip-c1 c1-strip"


def _four_boxes(frame: Frame) -> list[int]:
    return [index_of(frame, f"b{n}") for n in range(4)]


def _frame(mass_g: int) -> Frame:
    ahead = Need(NeedKind.EVERY_NIGHT, from_place="c1", may_go_ahead=True)
    gear = tuple(item(f"b{n}", ahead, mass_g=mass_g) for n in range(4))
    return build_frame(world(CARRY, people=TWO, gear=gear))


def test_what_is_too_much_for_one_day_goes_on_another() -> None:
    """Of four boxes on the move of day 2, two go up on the carry of day 1; every row is kept."""
    frame = _frame(11_000)
    bag = index_of(frame, "g1/meal")
    rides = {(cargo, 2): 1 for cargo in _four_boxes(frame)}
    rides |= {(cargo, 3): 1 for cargo in _four_boxes(frame)} | {(bag, 2): 2}
    eased = ease_trip(frame, rides, 2)
    assert eased is not None
    assert [sum(eased.get((c, t), 0) for c in _four_boxes(frame)) for t in (0, 2)] == [2, 2]
    assert keeps_flow_rows(frame, eased)


def test_rides_stay_where_no_move_makes_the_trip_less_full() -> None:
    """Two boxes on each way up are as even as they can be; on the way down there is no choice."""
    frame = _frame(11_000)
    boxes = _four_boxes(frame)
    rides = {(c, 2 * (n % 2)): 1 for n, c in enumerate(boxes)} | {(c, 3): 1 for c in boxes}
    rides |= {(index_of(frame, "g1/meal"), trip): 1 for trip in (0, 2)}
    assert ease_trip(frame, rides, 2) is None
    assert ease_trip(frame, rides, 3) is None


def test_how_full_a_trip_is_follows_what_is_put_in_and_taken_out() -> None:
    """A box of 10 kg of two caps of 20 kg is a quarter; without it the trip is empty again."""
    frame = _frame(10_000)
    fill = TripFill(frame)
    empty = fill.fraction(0)
    cargo = index_of(frame, "b0")
    assert fill.fraction_with(cargo, 0) == empty + 2_500
    fill.add(cargo, 0)
    assert fill.fraction(0) == empty + 2_500
    fill.add(cargo, 0, units=-1)
    assert fill.fraction(0) == empty
