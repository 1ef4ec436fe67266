"""Hours of people's travel days."""

from solver.checker.ledger.facts import read_facts
from solver.checker.queries.day_hours import TravelDay, read_travel_days
from solver.problem import PlaceKind
from tests.rules.calendar_worlds import on_legs, with_kind
from tests.rules.legs import with_legs
from tests.rules.worlds import person, world

TEAMS = (person("m1"), person("m2"), person("m3", rope_team_id="r2"))


def test_people_with_the_same_days_are_told_together():
    """Hours of a day's trips add up; a day in camp is left out; teams apart are apart."""
    problem = with_legs(
        world("strip-c1-strip|strip-c1 strip|c1 strip|c1-strip", people=TEAMS),
        hours_outbound=3.0,
        hours_homeward=1.0,
    )
    assert read_travel_days(read_facts(problem)) == {
        (TravelDay(1, 4.0, to_summit=False),): ("m1", "m2"),
        (TravelDay(1, 3.0, to_summit=False), TravelDay(3, 1.0, to_summit=False)): ("m3",),
    }


def test_a_day_with_an_unknown_trip_has_no_hours():
    """Where one leg's hours are unknown, so are the day's; the summit is seen all the same."""
    problem = with_kind(world("strip-c1-c2 c2-c1-strip"), "c2", PlaceKind.SUMMIT)
    problem = on_legs(problem, {"hours_outbound": 2.0, "hours_homeward": 1.0}, {})
    (days,) = read_travel_days(read_facts(problem))
    assert days == (TravelDay(1, None, to_summit=True), TravelDay(2, None, to_summit=False))
