"""Faults of the nights: groups that sleep apart, bags that do not come out even, no night set."""

from __future__ import annotations

from collections.abc import Iterator

from solver.errors import ProblemFault
from solver.problem.fault_checks.wording import Path, listed
from solver.problem.gear import Item, NeedKind
from solver.problem.problem import Problem
from solver.problem.supplies import CookGroup, ReserveKind
from solver.problem.timeline import Night, Timeline


def sleeping_faults(problem: Problem, timeline: Timeline) -> Iterator[ProblemFault]:
    """Nights on which a cook group sleeps in two places, or not where its kitchen is.

    Likewise those on which it has no night set, or uses a part of a bag.
    """
    for index, group in enumerate(problem.cook_groups):
        people = problem.members(group.cook_group_id)
        found: set[str] = set()
        for night in _to_come(problem, timeline) if people else ():
            places = list(dict.fromkeys(night.place_of(p.person_id) for p in people))
            if len(places) > 1:
                yield ProblemFault(
                    ("calendar", "days", night.day - 1),
                    "cook_group_apart",
                    f"Cook group {group.cook_group_id} sleeps at {listed(places)} after day "
                    f"{night.day}. Make a cook group for each place, or let them sleep together.",
                )
                continue
            yield from _kitchen_faults(problem, group, places[0], night)
            set_id = dict(group.set_at).get(places[0], f"none at {places[0]}")
            if set_id not in found:
                found.add(set_id)
                yield from _set_faults(problem, group, index, places[0], night)


def _to_come(problem: Problem, timeline: Timeline) -> list[Night]:
    """The nights that are not over."""
    over = problem.history.nights if problem.history is not None else 0
    return [night for night in timeline.nights if night.day > over]


def _kitchen_faults(
    problem: Problem, group: CookGroup, place: str, night: Night
) -> Iterator[ProblemFault]:
    if group.kitchen_of is None:
        return
    cooks = problem.members(group.kitchen_of)
    away = next((at for p in cooks if (at := night.place_of(p.person_id)) != place), None)
    if away is not None:
        names = [person.person_id for person in problem.members(group.cook_group_id)]
        yield ProblemFault(
            ("calendar", "days", night.day - 1),
            "kitchen_elsewhere",
            f"{listed(names)} with a menu of their own eat from the kitchen of cook group "
            f"{group.kitchen_of}, but after day {night.day} they sleep at {place} and the kitchen "
            f"is at {away}. Put them in a cook group of their own, or let all sleep together.",
        )


def _set_faults(
    problem: Problem, group: CookGroup, index: int, place: str, night: Night
) -> Iterator[ProblemFault]:
    where: Path = ("cook_groups", index, "set_at")
    if place not in dict(group.set_at):
        yield ProblemFault(
            where,
            "no_night_set",
            f"Cook group {group.cook_group_id} sleeps at {place} on day {night.day}, but no night "
            "set is used there.",
        )
        return
    night_set = problem.night_set(group.cook_group_id, group.set_id_at(place))
    people = len(problem.members(group.cook_group_id))
    if problem.history is None and people % night_set.sets_per_bag:
        yield ProblemFault(
            where,
            "bags_not_whole",
            f"{people} people sleep at {place}, but a bag of {night_set.set_id} holds "
            f"{night_set.sets_per_bag} sets and is opened whole. Pack bags of as many sets as "
            "there are people, or of one.",
        )


def reserve_place_faults(problem: Problem, timeline: Timeline) -> Iterator[ProblemFault]:
    """Storm and descent reserves at places where the cook group never sleeps."""
    for index, reserve in enumerate(problem.reserves):
        if reserve.kind is ReserveKind.BASE_WAIT:
            continue
        people = {p.person_id for p in problem.members(reserve.cook_group_id)}
        if not any(people & set(n.sleepers_at(reserve.place_id)) for n in timeline.nights):
            yield ProblemFault(
                ("reserves", index, "place_id"),
                "nobody_sleeps_here",
                f"Cook group {reserve.cook_group_id} never sleeps at {reserve.place_id}, so the "
                "reserve would never be held. Name a place where it sleeps.",
            )


def split_faults(problem: Problem, timeline: Timeline) -> Iterator[ProblemFault]:
    """Shared items that must be with everybody while everybody is in two places."""
    to_come = _to_come(problem, timeline)
    apart = [night for night in to_come if len({at for _, at in night.sleeps_at}) > 1]
    for index, item in enumerate(problem.gear):
        if item.owner_id is not None or item.rope_team_id is not None:
            continue
        if item.need.kind not in (NeedKind.EVERY_NIGHT, NeedKind.EVERY_TRIP):
            continue
        night = next((n for n in apart if len(_wanted_at(problem, item, n)) > 1), None)
        day = night.day if night else _split_day(problem, timeline, item)
        if day is not None:
            yield ProblemFault(
                ("gear", index),
                "people_apart",
                f"{item.unit_id} must be with everybody, but on day {day} people are apart. "
                "List it once for each rope team.",
            )


def _wanted_at(problem: Problem, item: Item, night: Night) -> set[str | None]:
    """Where the people of an item need it at night; None for who may do without."""
    route, need = problem.route, item.need
    wanted: set[str | None] = set()
    for place in {at for _, at in night.sleeps_at}:
        if need.up_to is not None and route.is_at_or_beyond(place, need.up_to):
            wanted.add(need.up_to)
        elif need.from_place is not None and not route.is_at_or_beyond(place, need.from_place):
            wanted.add(None if need.may_go_ahead else place)
        else:
            wanted.add(place)
    return wanted


def _split_day(problem: Problem, timeline: Timeline, item: Item) -> int | None:
    """The first day with a trip that a shared item must ride and not everybody makes."""
    if item.need.kind is not NeedKind.EVERY_TRIP:
        return None
    route, need = problem.route, item.need
    for trip in timeline.trips:
        if problem.is_over(trip.day):
            continue
        inner = trip.leg.from_place
        outer = trip.leg.to_place
        first = inner if need.may_go_ahead else outer
        in_range = (need.from_place is None or route.is_at_or_beyond(first, need.from_place)) and (
            need.up_to is None
            or outer == need.up_to
            or not route.is_at_or_beyond(outer, need.up_to)
        )
        if in_range and len(trip.person_ids) < len(problem.roster):
            return trip.day
    return None


def reach_faults(problem: Problem, timeline: Timeline) -> Iterator[ProblemFault]:
    """Items needed at a place that their people neither sleep at nor go beyond."""
    for index, item in enumerate(problem.gear):
        up_to = item.need.up_to
        if item.need.kind is not NeedKind.AT_PLACE or up_to is None:
            continue
        people = {
            p.person_id
            for p in problem.roster
            if item.owner_id in (None, p.person_id) and item.rope_team_id in (None, p.rope_team_id)
        }
        beyond = {
            place.place_id
            for place in problem.route.places
            if problem.route.is_at_or_beyond(place.place_id, up_to)
        }
        sleeps = any(p in people and at in beyond for n in timeline.nights for p, at in n.sleeps_at)
        passes = any(
            t.from_place in beyond and t.to_place in beyond and people & set(t.person_ids)
            for t in timeline.trips
        )
        if not sleeps and not passes:
            yield ProblemFault(
                ("gear", index, "need", "up_to"),
                "never_reached",
                f"{item.unit_id} is needed at {up_to}, but its people neither sleep there nor go "
                "beyond it. Name a place that they get to.",
            )
