"""One fault told once: which story is believed when a unit is asked for where it is not."""

from solver.checker.ledger.course import Event, follow
from solver.checker.ledger.times import arrival, departure

NEAREST = {"a": ["b", "c"], "b": ["a", "c"], "c": ["b", "a"]}


def _ride(moment: int, source: str, target: str, count: int = 1, leg: int = 0) -> list[Event]:
    """One trip of some units, which leave at a moment and arrive in the same."""
    number = leg or moment
    return [
        Event(departure(moment), source, -count, number),
        Event(arrival(moment), target, count, number),
    ]


def _follow(*rides: list[Event], provided: int = 1):
    events = [event for ride in rides for event in ride]
    return follow(events, provided=provided, home="a", nearest=NEAREST)


def test_a_unit_that_was_forgotten_once_is_taken_from_where_it_stands():
    """Left at a and loaded at b, it is missing once; from then on it is where it is said."""
    course = _follow(_ride(2, "b", "c"), _ride(3, "c", "b"), _ride(4, "b", "a"))
    assert [(s.event.place_id, s.missing) for s in course.shortages] == [("b", 1)]
    assert course.at(arrival(2)).get("c") == 1
    assert course.at(arrival(4)) == {"a": 1, "b": 0, "c": 0}


def test_a_load_that_makes_no_sense_later_on_is_not_believed():
    """At b, loaded at c by mistake and rightly at b after that, it never leaves b."""
    course = _follow(_ride(1, "a", "b"), _ride(2, "c", "a"), _ride(3, "b", "a"))
    assert [(s.event.place_id, s.missing) for s in course.shortages] == [("c", 1)]
    assert course.at(arrival(2)).get("b") == 1


def test_a_unit_loaded_twice_at_once_stays_one():
    """One unit on two trips of a moment is one too many, and only one arrives."""
    first, second = _ride(1, "a", "b"), _ride(1, "a", "c", leg=9)
    together = [first[0], second[0], first[1], second[1]]
    course = _follow(together, _ride(2, "b", "a"))
    assert [s.missing for s in course.shortages] == [1]
    assert sum(course.at(arrival(1)).values()) == 1


def test_what_is_missing_may_come_from_more_than_one_place():
    """Three wanted at c with one at b and one at a: both are taken, and one is nowhere."""
    course = _follow(_ride(1, "a", "b"), _ride(2, "c", "b", 3), _ride(3, "b", "a", 2), provided=2)
    (shortage,) = course.shortages
    assert (shortage.wanted, shortage.there, shortage.missing) == (3, 0, 3)
    assert course.at(arrival(2)).get("b") == 2


def test_the_state_just_before_a_time_leaves_out_what_happens_then():
    """Just before a departure the unit still stands; at it, it has left."""
    course = _follow(_ride(1, "a", "b"))
    assert course.before(departure(1)) == {"a": 1}
    assert course.at(departure(1)) == {"a": 0}
    assert course.least("a", departure(1), arrival(2)) == (0, departure(1))
