"""The greedy plan: where units must be, the way that they take there, and how they are packed."""

from __future__ import annotations

from solver.model.assignment.draft import Draft
from solver.model.assignment.load_fractions import peak_of
from solver.model.construction.greedy_plan import greedy_plan
from solver.model.construction.greedy_rides import greedy_rides
from solver.model.construction.itineraries import itineraries
from solver.model.construction.least_full_way import least_full_way
from solver.model.construction.pack_greedily import pack_greedily
from solver.model.construction.required_rides import add_required_rides
from solver.model.construction.reserve_itineraries import eat_reserves_later, shared_itineraries
from solver.model.construction.trip_fill import TripFill
from solver.model.formulation.build_frame import build_frame, sort_rows
from solver.model.formulation.frame import Frame
from solver.model.rows import LossRow, SomeRideRow, StockRow
from solver.model.rules import build_rows
from solver.model.run import Run
from solver.outcome import Limits
from solver.problem import Reserve, ReserveKind
from solver.progress import Watch
from tests.model.frames import TWO, box, index_of, two_with
from tests.rules.worlds import world

CARRY = "strip-c1-strip strip-c1 c1-strip"


def _carry(*gear, **more) -> Frame:
    return build_frame(world(CARRY, people=TWO, gear=gear, **more))


def test_each_unit_has_an_itinerary_to_where_it_is_used_or_kept() -> None:
    """Two bags go to c1 for the night, the box there and home again."""
    frame = two_with(box("box", 1_000))
    found = itineraries(frame)
    assert found is not None
    bag, thing = index_of(frame, "g1/meal"), index_of(frame, "box")
    night = frame.world.clock.night_event[1]
    assert found.count((bag, [(night - 1, "c1")])) == 2
    (stops,) = [stops for cargo, stops in found if cargo == thing]
    assert (stops[0], stops[-1]) == ((night, "c1"), (frame.world.clock.last, "strip"))


def test_a_unit_takes_the_trip_that_is_less_full() -> None:
    """With a heavy box on the carry of day 1, a bag goes up on day 2, and the other way round."""
    frame = _carry(box("box", 10_000))
    bag, thing = index_of(frame, "g1/meal"), index_of(frame, "box")
    stop = (frame.world.clock.night_event[2] - 1, "c1")
    for full, empty in ((0, 2), (2, 0)):
        fill = TripFill(frame)
        fill.add(thing, full)
        assert fill.fraction_with(bag, full) > fill.fraction_with(bag, empty)
        assert least_full_way(frame, fill, bag, "strip", [stop]) == [empty]
    too_early = (frame.world.clock.night_event[2], "c3")
    assert frame.world.clock.trip_event[0] < too_early[0]


def test_the_greedy_plan_shares_boxes_over_trips_and_packs() -> None:
    """Four boxes of 5 kg that may go up on two days make no load above one box and the food."""
    frame = _carry(*(box(f"b{n}", 5_000) for n in range(4)))
    rides = greedy_rides(frame)
    assert isinstance(rides, dict)
    ups = [sum(rides.get((index_of(frame, f"b{n}"), t), 0) for n in range(4)) for t in (0, 2)]
    assert sum(ups) == 4
    draft = pack_greedily(frame, rides, Run(5.0))
    assert isinstance(draft, Draft)
    assert draft.rides() == {ride: n for ride, n in rides.items() if n}
    plan = greedy_plan(frame, Limits(), Watch(10.0))
    assert plan.rides == rides
    assert plan.draft is not None
    assert peak_of(frame, plan.draft) == 5_000


def test_boxes_too_heavy_for_any_pack_leave_rides_without_a_draft() -> None:
    """A box of 30 kg has its way, and no pack of 20 kg takes it."""
    frame = two_with(box("box", 30_000))
    plan = greedy_plan(frame, Limits(), Watch(10.0))
    assert plan.rides is not None
    assert plan.draft is None


def test_what_is_kept_in_reserve_is_eaten_on_the_way_home() -> None:
    """A bag held at c2 that is free again serves the night at c1 after it."""
    problem = world("strip-c1-c2 c2-c1 c1-strip", people=TWO[:1])
    frame = build_frame(problem)
    bag, clock = index_of(frame, "g1/meal"), frame.world.clock
    kept = [(1, "c2"), (clock.night_event[1], "c2"), (clock.last, "strip")]
    used = [(clock.night_event[2] - 1, "c1")]
    eaten = eat_reserves_later(frame, [(bag, kept), (bag, used)])
    assert eaten == [(bag, [*kept[:-1], used[0]])]


def test_a_shared_reserve_takes_the_smallest_that_will_do() -> None:
    """Of units worth 2 and 5, a row that asks for 4 takes the 5, one that asks for 2 the 2."""
    frame = two_with(box("small", 1_000), box("large", 2_000))
    small, large = index_of(frame, "small"), index_of(frame, "large")
    terms = ((small, 2), (large, 5))
    for asked, taken in ((4, large), (2, small)):
        row = StockRow("reserves_held", 2, "c1", terms, asked)
        ((cargo, stops),) = shared_itineraries(frame, [row], {small: 1, large: 1})
        assert (cargo, stops[0], stops[-1]) == (taken, (2, "c1"), (frame.world.clock.last, "strip"))


def test_a_reserve_rides_as_greedily_as_all_else() -> None:
    """A storm bag at c1 is among the itineraries, up to c1 and home."""
    storm = (Reserve("c1", "g1", ReserveKind.STORM, 1, "meal"),)
    frame = _carry(reserves=storm)
    found = itineraries(frame)
    assert found is not None
    assert sum(stops[-1] == (frame.world.clock.last, "strip") for _, stops in found) == 2


def test_some_of_several_ride_along_on_a_day_out_and_back() -> None:
    """A box that stands at c1 rides to c2 and back where a row asks for some."""
    problem = world("strip-c1 c1-c2-c1 c1-strip", people=TWO, gear=(box("box", 1_000),))
    frame = build_frame(problem)
    thing = index_of(frame, "box")
    row = SomeRideRow("stove_when_far", 1, ((thing, 1),), 1)
    frame = sort_rows(frame.world, [*build_rows(frame.world), row])
    rides = {(thing, 0): 1, (thing, 3): 1}
    taken = add_required_rides(frame, rides)
    assert taken == rides | {(thing, 1): 1, (thing, 2): 1}
    assert add_required_rides(frame, taken) == taken


def test_a_container_goes_on_to_the_next_reserve_as_soon_as_less_is_asked_for() -> None:
    """Two containers at c1 until state 3 and one until 9: the second serves c2 from 5 to 7."""
    frame = two_with(box("bottle", 1_000))
    bottle = index_of(frame, "bottle")
    asked = [("c1", 2, 15), ("c1", 3, 15), ("c1", 9, 5), ("c2", 5, 5), ("c2", 7, 5)]
    rows = [StockRow("reserves_held", at, place, ((bottle, 10),), n) for place, at, n in asked]
    found = shared_itineraries(frame, rows, {bottle: 2})
    home = (frame.world.clock.last, "strip")
    assert sorted(stops for _, stops in found) == [
        [(2, "c1"), (3, "c1"), (5, "c2"), (7, "c2"), home],
        [(2, "c1"), (3, "c1"), (9, "c1"), (9, "c1"), home],
    ]


def test_a_container_that_stands_idle_at_a_place_serves_there_again() -> None:
    """Nothing is asked for at c1 in states 4 to 6; the container of before serves after that."""
    frame = two_with(box("bottle", 1_000))
    bottle = index_of(frame, "bottle")
    asked = [("c1", 2, 5), ("c1", 8, 5), ("c2", 5, 5)]
    rows = [StockRow("reserves_held", at, place, ((bottle, 10),), n) for place, at, n in asked]
    found = shared_itineraries(frame, rows, {bottle: 3})
    assert sorted([place for _, place in stops] for _, stops in found) == [
        ["c1", "c1", "c1", "c1", "strip"],
        ["c2", "c2", "strip"],
    ]


def test_what_must_not_be_lost_stays_in_camp() -> None:
    """A light bottle of 5 is all that may be lost: it rides along and not the lighter one of 9."""
    problem = world(
        "strip-c1 c1-c2-c1 c1-strip", people=TWO, gear=(box("small", 900), box("large", 1_000))
    )
    frame = build_frame(problem)
    small, large = index_of(frame, "small"), index_of(frame, "large")
    some = SomeRideRow("stove_when_far", 1, ((small, 5), (large, 9)), 1)
    loss = LossRow("fuel_survives_loss", 1, ("c1", "c2"), ((small, 5), (large, 9)), 9)
    rides = {(cargo, trip): 1 for cargo in (small, large) for trip in (0, 3)}
    for rows, taken in (([some], large), ([some, loss], small)):
        there = sort_rows(frame.world, [*build_rows(frame.world), *rows])
        found = add_required_rides(there, rides)
        assert found == rides | {(taken, 1): 1, (taken, 2): 1}
