"""States and events of the ledger."""

from __future__ import annotations

from solver.model.instance.clock import read_clock
from solver.problem import read_timeline
from tests.rules.worlds import person, world


def test_trips_of_one_moment_are_one_event_and_each_night_is_one() -> None:
    """Two parties leave together: four trips and one night on the way are three events."""
    teams = (person("m1"), person("m2", rope_team_id="r2"))
    days = "strip-c1|strip-c1 c1-strip|c1-strip"
    clock = read_clock(read_timeline(world(days, people=teams)))
    assert clock.trip_event == (1, 1, 3, 3)
    assert clock.night_event == {1: 2}
    assert clock.last == 3
    assert [len(trips) for trips in clock.trips_at] == [0, 2, 0, 2]


def test_a_day_out_and_back_is_two_events() -> None:
    """The way out and the way back follow each other."""
    clock = read_clock(read_timeline(world("strip-c1-strip")))
    assert (clock.trip_event, clock.night_event, clock.last) == ((1, 2), {}, 2)
