"""Points of time in a replay, so that a plan's events can be put in one order."""

from __future__ import annotations

from typing import NamedTuple

from solver.problem import History, Night, Timeline


class Time(NamedTuple):
    """A point of time; tuples compare in the order in which things happen.

    Of one moment all departures (phase 0) come before all arrivals (phase 1), and these
    before the nights that follow (phase 2), in the order of their days.
    """

    moment: int
    phase: int
    day: int


START = Time(0, 0, 0)


def departure(moment: int) -> Time:
    """When the trips of a moment have left and none has arrived."""
    return Time(moment, 0, 0)


def arrival(moment: int) -> Time:
    """When the trips of a moment have arrived."""
    return Time(moment, 1, 0)


def after_night(night: Night) -> Time:
    """When what a night uses is gone and what it makes is there."""
    return Time(night.moment, 2, night.day)


def moment_of(history: History, timeline: Timeline) -> Time:
    """When the past of a history is over: after its night, else once its trips have arrived."""
    if history.after_night:
        return after_night(timeline.nights[history.day - 1])
    trips = [trip.moment for trip in timeline.trips if trip.day == history.day]
    if trips:
        return Time(max(trips), 1, 1)
    return after_night(timeline.nights[history.day - 2]) if history.day > 1 else START


def end_of(timeline: Timeline) -> Time:
    """When everything is over."""
    return Time(timeline.last_moment + 1, 0, 0)
