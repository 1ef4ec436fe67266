"""People who left, joined or have to go down, and what earlier counts settled, in a problem."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from api_schema.replan import ReplanRequest
from service.errors import Fault, RequestFaults
from service.translate.read import quantities
from service.translate.read.near_names import unknown_id_words
from solver.problem import Change, Day, History, Problem, Visit
from solver.rest.parting import met, place_of, with_joined, without_people

_Document = dict[str, Any]


@dataclass(frozen=True, slots=True)
class ReadHurt:
    """Somebody who has to go down, as the solver takes it."""

    person_id: str
    how: str
    companions: tuple[str, ...] | None
    days: tuple[tuple[str, ...], ...] | None
    litter_g: int | None


def with_people(request: _Document, state: ReplanRequest, wire: _Document) -> None:
    """Put those who join on a request's roster, and absent rope teams into its days."""
    roster = request.setdefault("roster", [])
    roster.extend(one["person"] for one in wire.get("joins", ()))
    teams = {person.get("rope_team") for person in roster}
    for day in request["calendar"] if state.calendar is not None else ():
        named = day.get("teams") if isinstance(day, dict) else None
        if named:
            way = next(iter(named.values()))
            for team in teams - set(named) - {None}:
                named[team] = list(way)


def as_it_became(
    problem: Problem, state: ReplanRequest, over: History, rest: _Document | None
) -> Problem:
    """The problem with its history, and everybody there from when until when they were.

    `rest` is what a stored re-plan says of itself; its counts come before this one.
    """
    for settled in (rest or {}).get("settled", ()):
        problem = _settled(problem, settled)
    now = replace(problem, history=replace(over, before=problem.history))
    for one in state.left:
        now = without_people(now, {one.person_id}, place_of(now, one.person_id))
    for joins in state.joins:
        brings = {units.unit_id: units.count for units in joins.brings}
        now = with_joined(now, joins.person.person_id, joins.place, brings)
    return now


def _settled(problem: Problem, settled: Mapping[str, Any]) -> Problem:
    history = History(
        settled["day"],
        settled["after_night"],
        tuple(Change(c["place"], c["unit_id"], c["count"]) for c in settled["changes"]),
        tuple((b["cook_group"], b["fuel_ml"]) for b in settled["burnt"]),
        before=problem.history,
    )
    gone = set(settled["sleds_lost"])
    problem = replace(
        problem,
        history=history,
        sleds=tuple(
            replace(s, last_day=history.day) if s.sled_id in gone else s for s in problem.sleds
        ),
    )
    for one in settled["left"]:
        problem = without_people(problem, {one["person_id"]}, one["place"])
    for one in settled["joined"]:
        problem = met(problem, one["person_id"], one["place"])
    return problem


def people_faults(request: _Document, state: ReplanRequest, rest: _Document | None) -> None:
    """Raise RequestFaults where people are not there, join in no rope team, or nobody is left."""
    gone = {one["person_id"] for s in (rest or {}).get("settled", ()) for one in s["left"]}
    joining = {one.person.person_id for one in state.joins}
    roster = [person for person in request["roster"] if person.get("person_id") not in gone]
    there = [str(p["person_id"]) for p in roster if p.get("person_id") not in joining]
    faults = [
        Fault(pointer, "unknown_id", unknown_id_words("person", person_id, there))
        for pointer, person_id in _named(state)
        if person_id not in there
    ]
    if not faults and len({one.person_id for one in state.left}) >= len(there):
        faults.append(Fault("/left", "empty", "Nobody is left to plan for."))
    if not state.joins and _fetched(state) >= set(there):
        words = "Everybody would be fetched, so nobody is left to plan for."
        faults.append(Fault("/evacuation", "empty", words))
    teams = {person.get("rope_team") for person in roster if person["person_id"] in there}
    faults += [
        Fault(
            f"/joins/{index}/person/rope_team",
            "unknown_id",
            "A person who joins must be in a rope team of the plan.",
        )
        for index, one in enumerate(state.joins)
        if one.person.model_dump(exclude_unset=True).get("rope_team") not in teams
    ]
    if state.evacuation is not None and state.wait_nights:
        faults.append(
            Fault(
                "/wait_nights",
                "not_together",
                "Ask for the wait or for the evacuation, not for both.",
            )
        )
    if faults:
        raise RequestFaults(tuple(faults))


def _fetched(state: ReplanRequest) -> set[str]:
    """Everybody who leaves with an aircraft or a rescue team."""
    wish = state.evacuation
    if wish is None or wish.how != "flies":
        return set()
    return {wish.person_id, *(wish.companions or ())}


def _named(state: ReplanRequest) -> list[tuple[str, str]]:
    """Everybody whom a state names as leaving or going down, with the pointer."""
    named = [(f"/left/{n}/person_id", one.person_id) for n, one in enumerate(state.left)]
    if state.evacuation is not None:
        named.append(("/evacuation/person_id", state.evacuation.person_id))
        for n, companion in enumerate(state.evacuation.companions or ()):
            named.append((f"/evacuation/companions/{n}", companion))
    return named


def read_hurt(state: ReplanRequest) -> ReadHurt | None:
    """Who has to go down and how; None where nobody has to."""
    wish = state.evacuation
    if wish is None:
        return None
    return ReadHurt(
        person_id=wish.person_id,
        how=wish.how,
        companions=None if wish.companions is None else tuple(wish.companions),
        days=None if wish.days is None else tuple(tuple(day) for day in wish.days),
        litter_g=None if wish.litter is None else quantities.whole_up(wish.litter),
    )


def days_of(problem: Problem, hurt: ReadHurt) -> tuple[Day, ...] | None:
    """The days of those who go down, for all rope teams that could be among them."""
    if hurt.days is None:
        return None
    teams = tuple(dict.fromkeys(person.rope_team_id for person in problem.roster))
    return tuple(Day((Visit(teams, places),), note="down") for places in hurt.days)
