"""The calendar read as trips and nights, against what the days say in plain words."""

from dataclasses import replace

from solver.problem import Direction, Sled
from solver.problem.timeline import read_timeline
from tests.rules.worlds import person, world

TWO_TEAMS = (person("m1"), person("m2", rope_team_id="r2"))


def test_neighbours_in_a_day_are_trips_and_every_day_but_the_last_has_a_night():
    """A carry and a move are three trips at three moments, and one night lies between them."""
    timeline = read_timeline(world("strip-c1-strip strip-c1"))
    assert [(t.day, t.step, t.from_place, t.to_place, t.moment) for t in timeline.trips] == [
        (1, 1, "strip", "c1", 1),
        (1, 2, "c1", "strip", 2),
        (2, 1, "strip", "c1", 3),
    ]
    assert [(n.day, n.moment, n.sleeps_at) for n in timeline.nights] == [(1, 2, (("m1", "strip"),))]
    assert timeline.last_moment == 3
    assert [trip.index for trip in timeline.trips] == [0, 1, 2]


def test_a_trip_against_the_leg_goes_down():
    """The way out along a leg is up, the way back is down."""
    timeline = read_timeline(world("strip-c1-strip"))
    assert [trip.direction for trip in timeline.trips] == [Direction.OUTBOUND, Direction.HOMEWARD]


def test_first_steps_of_parties_share_a_moment_and_a_longer_day_goes_on_alone():
    """Both teams leave together; the second step of one has the next moment to itself."""
    timeline = read_timeline(world("strip-c1-strip|strip-c1 strip|c1-strip", people=TWO_TEAMS))
    assert [(t.moment, t.person_ids, t.to_place) for t in timeline.trips] == [
        (1, ("m1",), "c1"),
        (1, ("m2",), "c1"),
        (2, ("m1",), "strip"),
        (3, ("m2",), "strip"),
    ]
    (night,) = timeline.nights
    assert night.sleeps_at == (("m1", "strip"), ("m2", "c1"))
    assert night.place_of("m2") == "c1"
    assert night.sleepers_at("strip") == ("m1",)


def test_a_sled_is_hauled_on_sled_legs_from_where_it_was_left():
    """A sled rests where the sled leg ends until the way home; its factors go by direction."""
    sled = Sled("pulk", "m1", tare_g=5_000, mass_limit_g=50_000, volume_ml=100_000)
    problem = world("strip-c1-c2 c2-c1-strip", sleds=(sled,), sled_leg_factors=(50, 80))
    trips = read_timeline(problem).trips
    assert [trip.sled_ids for trip in trips] == [("pulk",), (), (), ("pulk",)]
    assert [trip.sled_factor_percent for trip in trips] == [50, 50, 80, 80]


def test_a_sled_of_two_stays_behind_unless_both_are_there():
    """A sled with a second hauler moves with the party that has both, and with no other."""
    sled = Sled(
        "pulk", "m1", tare_g=5_000, mass_limit_g=50_000, volume_ml=100_000, second_hauler_id="m2"
    )
    apart = world(
        "strip-c1-strip|strip-c1-strip",
        people=TWO_TEAMS,
        sleds=(sled,),
        sled_leg_factors=(100, 100),
    )
    together = replace(apart, calendar=world("strip-c1-strip", people=TWO_TEAMS).calendar)
    assert {trip.sled_ids for trip in read_timeline(apart).trips} == {()}
    assert {trip.sled_ids for trip in read_timeline(together).trips} == {("pulk",)}
