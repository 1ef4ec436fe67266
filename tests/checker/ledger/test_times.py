"""Times: the order in which things happen."""

from solver.checker.ledger.times import START, after_night, arrival, departure, end_of
from solver.problem import read_timeline
from tests.rules.worlds import world


def test_of_one_moment_departures_come_before_arrivals_and_these_before_nights():
    """Start, leave, arrive, sleep, leave again: the times sort in that order."""
    timeline = read_timeline(world("strip-c1 c1 c1-strip"))
    first, second = timeline.nights
    times = [
        START,
        departure(1),
        arrival(1),
        after_night(first),
        after_night(second),
        departure(2),
        arrival(2),
        end_of(timeline),
    ]
    assert sorted(times) == times
    assert len(set(times)) == len(times)
