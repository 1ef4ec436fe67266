"""People who leave an expedition on the way or join it, put into a problem at its moment."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import replace

from solver.problem import Change, Item, NeedKind, Presence, Problem, Sled

Counts = Mapping[tuple[str, str], int]
"""How many units by (place, unit id)."""


def without_people(problem: Problem, gone: Collection[str], place_id: str) -> Problem:
    """The problem of those who go on, once some people have left them at a place.

    What those who left own goes with them. No rule asks for it any more, nor for sleds that one
    of them hauls. Needs a history, whose moment is when they part.
    """
    history = problem.history
    if history is None or not gone:
        return problem
    presence = Presence(last_day=history.day, last_night=history.nights, place_id=place_id)
    left = tuple(replace(p, presence=presence) for p in problem.roster if p.person_id in gone)
    roster = tuple(person for person in problem.roster if person.person_id not in gone)
    teams = {person.rope_team_id for person in roster}
    groups = {person.cook_group_id for person in roster}
    return replace(
        problem,
        roster=roster,
        left=(*problem.left, *left),
        gear=tuple(_of_the_others(i, gone, teams) for i in problem.gear if i.owner_id not in gone),
        sleds=tuple(_left_standing(sled, gone, history.day) for sled in problem.sleds),
        reserves=tuple(r for r in problem.reserves if r.cook_group_id in groups),
        evacuations=tuple(e for e in problem.evacuations if e.person_id not in gone),
        pins=tuple(pin for pin in problem.pins if pin.person_id not in gone),
    )


def _of_the_others(item: Item, gone: Collection[str], teams: Collection[str]) -> Item:
    """Shared kit of those who go on: its keeper or rope team is not one that has left."""
    return replace(
        item,
        rope_team_id=item.rope_team_id if item.rope_team_id in teams else None,
        keeper_id=None if item.keeper_id in gone else item.keeper_id,
    )


def _left_standing(sled: Sled, gone: Collection[str], day: int) -> Sled:
    if not {sled.hauler_id, sled.second_hauler_id} & set(gone):
        return sled
    return replace(sled, last_day=day if sled.last_day is None else min(day, sled.last_day))


def with_joined(
    problem: Problem, person_id: str, place_id: str, brings: Mapping[str, int]
) -> Problem:
    """The problem once a person of the roster has joined at a place, with their gear and more.

    All that they own is there with them. `brings` are units of kinds that the expedition has.
    Needs a history, whose moment is when they meet.
    """
    history = problem.history
    if history is None:
        return problem
    own = tuple(
        change
        for item in problem.gear
        if item.owner_id == person_id and item.need.kind is not NeedKind.WORN
        for change in (
            Change(problem.start_place, item.unit_id, -item.count),
            Change(place_id, item.unit_id, item.count),
        )
    )
    brought = tuple(Change(place_id, unit, count) for unit, count in brings.items())
    joined = met(problem, person_id, place_id)
    changes = (*history.changes, *own, *brought)
    return replace(joined, history=replace(history, changes=changes))


def met(problem: Problem, person_id: str, place_id: str) -> Problem:
    """The problem with a person of the roster who is there from its moment on."""
    history = problem.history
    if history is None:
        return problem
    presence = Presence(
        first_day=history.day + 1, first_night=history.nights + 1, place_id=place_id
    )
    return replace(
        problem,
        roster=tuple(
            replace(p, presence=presence) if p.person_id == person_id else p for p in problem.roster
        ),
    )


def place_of(problem: Problem, person_id: str) -> str:
    """Where a person is at the moment of a problem's history."""
    day = problem.history.day if problem.history is not None else 1
    team = problem.person(person_id).rope_team_id
    return problem.calendar.days[max(day, 1) - 1].visit_of(team).places[-1]


def less(problem: Problem, counts: Counts) -> Problem:
    """The problem with fewer units at each place from its moment on, by these counts."""
    history = problem.history
    if history is None:
        return problem
    fewer = tuple(
        Change(place, unit, -count) for (place, unit), count in sorted(counts.items()) if count
    )
    return replace(problem, history=replace(history, changes=(*history.changes, *fewer)))
