"""All that is wrong with a problem, at once, before anything is planned."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from solver.errors import ProblemFault
from solver.problem.fault_checks import (
    calendar,
    flights,
    gear,
    history,
    nights,
    pins,
    roster,
    route,
    stores,
    supplies,
)
from solver.problem.problem import Problem
from solver.problem.timeline import Timeline, read_timeline

_Check = Callable[[Problem], Iterator[ProblemFault]]
_TimelineCheck = Callable[[Problem, Timeline], Iterator[ProblemFault]]

_OF_THE_PARTS: tuple[_Check, ...] = (
    route.leg_faults,
    calendar.rope_team_faults,
    calendar.place_faults,
    roster.person_faults,
    roster.sled_faults,
    gear.item_faults,
    supplies.cook_group_faults,
    supplies.night_set_faults,
    supplies.reserve_faults,
    supplies.setting_faults,
    calendar.clock_faults,
    flights.flight_faults,
    flights.evacuation_faults,
    history.history_faults,
    pins.pin_faults,
)

_OF_THE_NIGHTS: tuple[_TimelineCheck, ...] = (
    nights.sleeping_faults,
    nights.reserve_place_faults,
    nights.split_faults,
    nights.reach_faults,
    pins.pinned_trip_faults,
)

_ON_THE_WAY: tuple[_TimelineCheck, ...] = (
    nights.sleeping_faults,
    nights.split_faults,
    pins.pinned_trip_faults,
)
"""Of an expedition that is under way: a place that was to be reached may be given up."""

_OF_THE_STORES: tuple[_TimelineCheck, ...] = (
    stores.bag_faults,
    stores.fuel_faults,
    stores.sled_way_faults,
)

# Parts that a check along the route follows: their ids must lead somewhere.
_WALKED = frozenset({"route", "calendar"})


def find_faults(problem: Problem) -> tuple[ProblemFault, ...]:
    """Every fault that is certain, in the order of the problem's parts."""
    return examine(problem)[0]


def examine(problem: Problem) -> tuple[tuple[ProblemFault, ...], Timeline | None]:
    """Every fault, and the timeline of a problem whose calendar can be read.

    A problem without faults always has its timeline, which is then handed on. A check that builds
    on others runs once those found nothing, so that one fault is found once and not again as its
    consequences. On the way, what is too little is for the plan to say: it is no fault then.
    """
    faults = _without_consequences(fault for check in _OF_THE_PARTS for fault in check(problem))
    days = problem.calendar.days
    if not days or not all(day.visits and all(v.places for v in day.visits) for day in days):
        return tuple(faults), None
    walkable = not any(fault.where[0] in _WALKED for fault in faults)
    faults += calendar.end_faults(problem)
    if walkable:
        faults += _faults_along_the_route(problem, faults)
    if faults:
        return tuple(faults), None
    timeline = read_timeline(problem)
    of_the_nights = _OF_THE_NIGHTS if problem.history is None else _ON_THE_WAY
    faults = [fault for check in of_the_nights for fault in check(problem, timeline)]
    if not faults and problem.history is None:
        faults = [fault for check in _OF_THE_STORES for fault in check(problem, timeline)]
    return tuple(faults), timeline


def _without_consequences(found: Iterable[ProblemFault]) -> list[ProblemFault]:
    """The faults without unknown ids of a kind in which an id stands twice, which hides another."""
    faults = list(found)
    doubled = {fault.of_kind for fault in faults if fault.code == "duplicate_id"} - {""}
    return [f for f in faults if f.code != "unknown_id" or f.of_kind not in doubled]


def _faults_along_the_route(problem: Problem, known: list[ProblemFault]) -> list[ProblemFault]:
    """Faults of the tree, or else those that it takes a tree to see."""
    faults = list(route.tree_faults(problem))
    if faults:
        return faults
    faults += calendar.leg_faults(problem)
    if not any(fault.where[0] == "gear" for fault in known):
        faults += gear.line_faults(problem)
    return faults
