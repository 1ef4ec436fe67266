"""What an item's need asks, read against the calendar."""

from __future__ import annotations

from solver.model.instance.placement import need_of
from solver.model.instance.world import build_world
from solver.problem import Item, Need, NeedKind
from tests.rules.worlds import item, person, world

PEOPLE = (person("m1"), person("m2", rope_team_id="r2"))
DAYS = "strip-c1 c1-c2 c2-c1-strip"


def _need(thing: Item, days: str = DAYS):
    built = build_world(world(days, people=PEOPLE, gear=(thing,)))
    return need_of(built, built.problem.gear[0])


def test_an_items_people_are_its_owner_its_rope_team_or_everybody() -> None:
    """An owner, a rope team and neither give one, the team's, and all people."""
    assert _need(item("a", owner_id="m1")).people == {"m1"}
    assert _need(item("b", rope_team_id="r2")).people == {"m2"}
    assert _need(item("c")).people == {"m1", "m2"}


def test_what_rides_every_trip_rides_within_its_part_of_the_route() -> None:
    """A rope needed from c1 on rides the way there, too, unless it may go ahead."""
    upper = item("rope", Need(NeedKind.EVERY_TRIP, from_place="c1"))
    trips = [(t.from_place, t.to_place) for t in _need(upper).trips_to_ride()]
    assert trips == [("strip", "c1"), ("c1", "c2"), ("c2", "c1"), ("c1", "strip")]
    ahead = item("rope", Need(NeedKind.EVERY_TRIP, from_place="c1", may_go_ahead=True))
    trips = [(t.from_place, t.to_place) for t in _need(ahead).trips_to_ride()]
    assert trips == [("c1", "c2"), ("c2", "c1")]
    assert _need(item("tent", Need(NeedKind.EVERY_NIGHT))).trips_to_ride() == ()


def test_what_goes_no_further_stays_there_by_night() -> None:
    """A tent that goes up to c1 is at c1 while its people sleep at c2."""
    tent = _need(item("tent", Need(NeedKind.EVERY_NIGHT, up_to="c1")))
    assert [tent.place_for_night(day) for day in (1, 2)] == ["c1", "c1"]


def test_what_belongs_at_a_place_stands_there_from_the_first_night_to_the_last() -> None:
    """A box for c2 must stand there over the only night at c2, and may not go ahead."""
    need = _need(item("box", Need(NeedKind.AT_PLACE, up_to="c2")))
    clock = need.world.clock
    span = need.span_at_place()
    assert span == (clock.night_event[2] - 1, clock.night_event[2])
    assert need.nights_on_the_way(span) == ((clock.night_event[1], "c1"),)
    ahead = _need(item("box", Need(NeedKind.AT_PLACE, up_to="c2", may_go_ahead=True)))
    assert ahead.nights_on_the_way(span) == ()


def test_what_belongs_at_a_place_nobody_reaches_is_asked_nothing() -> None:
    """Where nobody sleeps at c2 or goes beyond it, nothing must stand there."""
    need = _need(item("box", Need(NeedKind.AT_PLACE, up_to="c2")), "strip-c1-c2-c1 c1-strip")
    assert need.span_at_place() is None
