"""Needs: where each item must be, and which trips it must ride."""

import pytest

from solver.checker.ledger.needs import Needs, Window
from solver.checker.ledger.times import after_night, departure, end_of
from solver.problem import Need, NeedKind, read_timeline
from tests.rules.worlds import item, person, world

DAYS = "strip-c1 c1-c2 c2-c1-strip"
TEAMS = (person("m1"), person("m2", rope_team_id="r2"))


def _needs(days=DAYS, people=TEAMS[:1]):
    problem = world(days, people=people)
    timeline = read_timeline(problem)
    return Needs(problem, timeline), timeline


def test_an_item_is_its_owners_else_its_rope_teams_else_everybodys():
    """The owner comes before the rope team, and the rope team before all."""
    needs, _ = _needs(people=TEAMS)
    assert needs.people_of(item("a", owner_id="m1", rope_team_id="r2")) == {"m1"}
    assert needs.people_of(item("a", rope_team_id="r2")) == {"m2"}
    assert needs.people_of(item("a")) == {"m1", "m2"}


@pytest.mark.parametrize(
    ("need", "rides"),
    [
        (Need(NeedKind.EVERY_TRIP), [True, True, True, True]),
        (Need(NeedKind.EVERY_TRIP, up_to="c1"), [True, False, False, True]),
        (Need(NeedKind.EVERY_TRIP, from_place="c1"), [True, True, True, True]),
        (Need(NeedKind.EVERY_NIGHT), [False, False, False, False]),
    ],
)
def test_an_item_of_every_trip_rides_where_it_is_needed(need, rides):
    """`up_to` cuts off the trips beyond; `from_place` covers the way there and back."""
    needs, timeline = _needs()
    assert [needs.must_ride(item("a", need), trip) for trip in timeline.trips] == rides


def test_an_item_waits_where_it_goes_no_further():
    """While its people sleep beyond its last place, an item of every night is there."""
    needs, timeline = _needs()
    mark = item("a", Need(NeedKind.EVERY_NIGHT, up_to="c1"))
    assert [needs.night_place(mark, night) for night in timeline.nights] == ["c1", "c1"]
    free = item("b", Need(NeedKind.EVERY_NIGHT))
    assert [needs.night_place(free, night) for night in timeline.nights] == ["c1", "c2"]


def test_an_item_may_be_with_any_of_people_who_sleep_apart():
    """Where its people sleep at two places, neither is asked for."""
    needs, timeline = _needs("strip-c1|strip c1-strip|strip", people=TEAMS)
    assert needs.night_place(item("a", Need(NeedKind.EVERY_NIGHT)), timeline.nights[0]) is None


def test_an_item_at_a_place_is_due_before_its_people_go_beyond():
    """It is there from the first night until its people leave for good."""
    needs, timeline = _needs()
    night, last = timeline.nights[0], timeline.trips[-1]
    tent = item("tent", Need(NeedKind.AT_PLACE, up_to="c1"))
    assert needs.window(tent) == Window(after_night(night), departure(last.moment))


def test_an_item_that_may_follow_is_due_a_stay_later():
    """On a stay of two nights what may follow is due on the second."""
    needs, timeline = _needs("strip-c1 c1 c1-strip")
    ahead = item("tent", Need(NeedKind.AT_PLACE, up_to="c1", may_follow=True))
    window = needs.window(ahead)
    assert window is not None
    assert window.begins == after_night(timeline.nights[1])


def test_an_item_for_a_place_that_nobody_reaches_is_never_due():
    """Nobody ever gets to c2, so nothing is asked of what belongs there."""
    needs, timeline = _needs("strip-c1 c1-strip strip-c1-strip")
    assert needs.window(item("tent", Need(NeedKind.AT_PLACE, up_to="c9"))) is None
    assert end_of(timeline).moment == timeline.last_moment + 1
