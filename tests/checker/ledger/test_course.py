"""Course: where the units of one id stand, and what falls short."""

from solver.checker.ledger.course import Event, follow
from solver.checker.ledger.times import START, Time, arrival, departure

NEAREST = {"strip": ["c1", "c2"], "c1": ["strip", "c2"], "c2": ["c1", "strip"]}


def _trip(moment: int, start: str, end: str, count: int) -> list[Event]:
    leg = moment
    return [
        Event(departure(moment), start, -count, leg),
        Event(arrival(moment), end, count, leg),
    ]


def _followed(*events: Event, provided: int = 2):
    return follow(events, provided=provided, home="strip", nearest=NEAREST)


def test_units_stand_where_their_trips_led():
    """One of two goes up; before it arrives it stands nowhere."""
    course = _followed(*_trip(1, "strip", "c1", 1))
    assert course.at(START) == {"strip": 2}
    assert course.at(departure(1)) == {"strip": 1}
    assert course.before(departure(1)) == {"strip": 2}
    assert course.at(arrival(1)) == {"strip": 1, "c1": 1}
    assert course.shortages == ()


def test_the_fewest_of_a_span_are_told_with_since_when():
    """From the start until before moment 2 the strip has one unit at least, from moment 1 on."""
    course = _followed(*_trip(1, "strip", "c1", 1))
    assert course.least("strip", START, Time(2, 0, 0)) == (1, departure(1))
    assert course.least("strip", START, departure(1)) == (2, START)


def test_units_that_stand_nowhere_never_arrive():
    """Three are loaded of two: one is missing and only two arrive."""
    course = _followed(*_trip(1, "strip", "c1", 3))
    (shortage,) = course.shortages
    assert (shortage.wanted, shortage.there, shortage.missing) == (3, 2, 1)
    assert course.at(arrival(1)) == {"strip": 0, "c1": 2}


def test_a_load_of_what_stands_elsewhere_is_one_shortage():
    """A unit comes down from c1 that was never there: one fault, and both go up afterwards."""
    course = _followed(*_trip(1, "c1", "strip", 1), *_trip(2, "strip", "c1", 2), provided=2)
    assert [shortage.missing for shortage in course.shortages] == [1]
    assert course.at(arrival(2)).get("c1") == 2
