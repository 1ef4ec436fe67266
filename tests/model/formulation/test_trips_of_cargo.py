"""Which trips each kind of cargo may ride, and which it must."""

from __future__ import annotations

from solver.model.formulation.allowed_trips import find_allowed_trips
from solver.model.formulation.further_trips import allow_for_company, allow_for_the_day
from solver.model.formulation.stock_trips import trips_of_stock
from solver.model.formulation.straight_way import trips_of_thing
from solver.model.formulation.trips_within_reach import allow_within_reach
from solver.model.instance.world import World, build_world
from solver.model.rows import ApartRow, ReachRow, SomeRideRow
from solver.model.rules import build_rows
from tests.model.frames import TWO, box
from tests.rules.worlds import world

CARRY = "strip-c1-strip strip-c1 c1-strip"
"""Up and down on day 1 with trips 0 and 1, up on day 2 with trip 2, down on day 3 with trip 3."""


def _world(days: str = CARRY) -> World:
    return build_world(world(days, people=TWO, gear=(box("box", 1_000), box("other", 1_000))))


def test_a_thing_may_ride_every_trip_that_completes_its_way_in_time() -> None:
    """To c1 by the second night both trips up will do; back at the strip by the end only one."""
    built = _world()
    cargo = next(one for one in built.cargo if one.unit_id == "box")
    there = built.clock.night_event[2]
    stops = [(there, "c1"), (built.clock.last, "strip")]
    trips, musts = trips_of_thing(built, cargo, stops, [])
    assert (trips, musts) == ((0, 2, 3), {3})


def test_stock_goes_out_while_it_is_wanted_there_and_not_back_before() -> None:
    """Bags for the night at c1 may go up on both trips, and come down only on the last."""
    built = _world()
    bag = next(one for one in built.cargo if one.unit_id == "g1/meal")
    assert bag.uses[-1][1] == "c1"
    assert trips_of_stock(built, bag, [], [], []) == (0, 2, 3)


def test_company_and_days_and_reach_allow_further_trips() -> None:
    """Kinds to part, things for a day and things within reach may ride where no way leads them."""
    built = _world()
    one, other = (c.index for c in built.cargo if c.item is not None)
    allowed: list[tuple[int, ...]] = [() for _ in built.cargo]
    allowed[one] = (0,)
    allow_for_company(built, [ApartRow("x", 0, (one, other), half=False)], allowed)
    assert allowed[other] == ()  # One unit on the trip can be parted from nobody.
    settled = {(one, 0), (one, 2)}
    allow_for_the_day(built, [SomeRideRow("x", 1, ((one, 1),), 1)], allowed, settled)
    assert (allowed[one], settled) == ((0, 1), set())
    row = ReachRow("x", built.clock.last, ("c1",), ((other, 1),), 1)
    allow_within_reach(built, [row], allowed, settled, {one: [], other: []})
    assert allowed[other] == (0, 1, 2, 3)


def test_all_rows_together_give_every_cargo_its_trips() -> None:
    """With the rules' own rows a box has its settled way and the bags their choice."""
    built = _world()
    found = find_allowed_trips(built, build_rows(built))
    bag = next(one.index for one in built.cargo if one.unit_id == "g1/meal")
    thing = next(one.index for one in built.cargo if one.unit_id == "box")
    assert len(found.trips[bag]) > 1
    assert (thing, 3) in found.settled
    assert all((cargo, trip) not in found.settled for cargo in (bag,) for trip in range(4))
