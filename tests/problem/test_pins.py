"""Pins moved with the days of a calendar, and their faults by part."""

from __future__ import annotations

from dataclasses import replace

from solver.problem import Pin, read_timeline
from solver.problem.fault_checks.pins import pin_faults, pinned_trip_faults
from solver.problem.pins import pins_moved
from tests.rules.worlds import world

PIN = Pin("tent", 2, 1, "m1")


def test_pins_after_a_day_move_with_it() -> None:
    """Only pins of later days are moved."""
    pins = (replace(PIN, day=1), PIN, replace(PIN, day=3))
    assert [p.day for p in pins_moved(pins, after=1, days=2)] == [1, 4, 5]
    assert [p.day for p in pins_moved(pins, after=2, days=-1)] == [1, 2, 2]


def test_sound_pins_have_no_faults() -> None:
    """A pin of somebody known on a trip of theirs is no fault, whatever its unit."""
    problem = replace(world("strip-c1 c1-strip"), pins=(PIN,))
    assert list(pin_faults(problem)) == []
    assert list(pinned_trip_faults(problem, read_timeline(problem))) == []
    gone = replace(problem, pins=(replace(PIN, day=3),))
    (fault,) = pinned_trip_faults(gone, read_timeline(gone))
    assert fault.detail == "m1 makes no trip on day 3. Days with trips: 1, 2."
