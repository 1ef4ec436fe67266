"""A state that was counted on the way, read against the plan that was followed.

A stored re-plan is one document: the request as it now is, the plan that was followed, and the
state. Faults point into the state, as its caller wrote it.
"""

from __future__ import annotations

import copy
from collections import defaultdict
from dataclasses import dataclass, replace
from typing import Any

from pydantic import ValidationError

from api_schema.replan import LettingGoRequest, ReplanRequest
from service.errors import Fault, RequestFaults
from service.translate.read.counted_state import (
    Count,
    fuel_burnt,
    sleds_left,
    take_counts,
    take_losses,
    take_with_people,
)
from service.translate.read.near_names import unknown_id_words
from service.translate.read.people_on_the_way import (
    ReadHurt,
    as_it_became,
    people_faults,
    read_hurt,
    with_people,
)
from service.translate.read.requests import ReadRequest, read_plan_request
from service.translate.read.stored_plan import read_stored_plan
from service.translate.read.wire_faults import wire_faults
from solver.checker.ledger.facts import read_facts
from solver.checker.standing import standing_at_moment
from solver.plan import Plan
from solver.problem import History, Problem, ReserveKind
from solver.rulebook import RULES

_Document = dict[str, Any]


@dataclass(frozen=True, slots=True)
class ReadStep:
    """One step of the leader's order, as the solver takes it."""

    reason: str
    rule_id: str | None
    kind: ReserveKind | None
    place_id: str | None


@dataclass(frozen=True, slots=True)
class ReadReplan:
    """A re-plan in order: its request with a history, the plan that was followed, what is asked.

    `unexplained` says what was counted otherwise than planned, one sentence each.
    """

    read: ReadRequest
    followed: Plan
    of_plan: str
    state: ReplanRequest
    letting_go: tuple[ReadStep, ...]
    unexplained: tuple[str, ...]
    hurt: ReadHurt | None = None


def with_state(base: _Document, plan: _Document, of_plan: str, state: _Document) -> _Document:
    """The document of a re-plan: the request as it is from now on, plan, state and their plan."""
    read = _read_state(state)
    request = copy.deepcopy(base)
    if read.calendar is not None:
        request["calendar"] = copy.deepcopy(state["calendar"])
    if read.wait_nights and 1 <= _over(read).day <= len(request["calendar"]):
        _wait(request, _over(read).day, read.wait_nights)
    with_people(request, read, state)
    limits = {one.person_id: one for one in read.people}
    for person in request.get("roster", []):
        limit = limits.get(person.get("person_id"))
        if limit is not None:
            person["load_limit"] = limit.load_limit
            person["load_limit_reason"] = limit.reason
            # Sleeping kit and the like may ride with others, never what keeps a person alive.
            person["kit_to_rope_team"] = True
    # What was made by hand was made for the plan before the start; the new one stays near to that.
    request.pop("pins", None)
    former = ("near_plan", "start_plan")
    options = {k: v for k, v in (request.get("options") or {}).items() if k not in former}
    if options or "options" in request:
        request["options"] = options
    return {"request": request, "plan": plan, "of_plan": of_plan, "state": state}


def read_replan(document: _Document) -> ReadReplan:
    """A stored re-plan; raises RequestFaults with every fault of its state."""
    state = _read_state(document["state"])
    over = _over(state)
    settled = document["plan"].get("rest")
    people_faults(document["request"], state, settled)
    days = len(document["request"]["calendar"])
    if not 1 <= over.day < days:
        words = f"This leaves nothing to plan: the plan has {days} days."
        raise RequestFaults((Fault("/at/day", "out_of_range", words),))
    try:
        read = read_plan_request(
            document["request"], lambda problem: as_it_became(problem, state, over, settled)
        )
    except RequestFaults as error:
        raise RequestFaults(_of_the_state(error.faults)) from None
    followed = read_stored_plan(document["plan"])
    problem = _as_settled(read.problem, settled)
    facts = read_facts(problem)
    planned = {
        (one.place_id, one.unit_id): one.count for one in standing_at_moment(facts, followed)
    }
    count = Count(state, problem, facts, planned)
    take_counts(count)
    take_losses(count)
    take_with_people(count)
    burnt = fuel_burnt(count, followed)
    sleds = sleds_left(count)
    people = {person.person_id for person in problem.roster}
    for index, one in enumerate(state.people):
        if one.person_id not in people:
            words = unknown_id_words("person", one.person_id, sorted(people))
            count.faults.append(Fault(f"/people/{index}/person_id", "unknown_id", words))
    steps = tuple(_step(index, one, count) for index, one in enumerate(state.letting_go))
    if count.faults:
        raise RequestFaults(tuple(count.faults))
    now = problem.history or over
    history = replace(now, changes=(*now.changes, *count.changes), burnt_ml=burnt)
    whole = replace(problem, history=history, sleds=sleds)
    return ReadReplan(
        read=replace(read, problem=whole),
        followed=followed,
        of_plan=document["of_plan"],
        state=state,
        letting_go=steps,
        unexplained=tuple(count.notes),
        hurt=read_hurt(state),
    )


def _read_state(document: _Document) -> ReplanRequest:
    try:
        return ReplanRequest.model_validate(document)
    except ValidationError as error:
        raise RequestFaults(wire_faults(error, ReplanRequest)) from None


def _over(state: ReplanRequest) -> History:
    """What is over at the moment of a state: a morning comes after the night before."""
    if state.at.moment == "evening":
        return History(state.at.day)
    return History(state.at.day - 1, after_night=True)


def _wait(request: _Document, day: int, nights: int) -> None:
    """Put days of waiting into a calendar after a day, and move what is asked of later days."""
    last = request["calendar"][day - 1]
    here: _Document = {"note": "waiting"}
    if isinstance(last, list):
        here["places"] = last[-1:]
    elif last.get("teams"):
        here["teams"] = {team: places[-1:] for team, places in last["teams"].items()}
    else:
        here["places"] = last["places"][-1:]
    request["calendar"][day:day] = [copy.deepcopy(here) for _ in range(nights)]
    for evacuation in request.get("evacuations") or ():
        if (evacuation.get("day") or 0) > day:
            evacuation["day"] += nights


def _as_settled(problem: Problem, rest: _Document | None) -> Problem:
    """The problem with what an earlier re-plan settled: reserves used up, other sets, waivers."""
    if not rest:
        return problem
    used: dict[tuple[str, str, str], int] = defaultdict(int)
    for spent in rest["spent"]:
        used[spent["place"], spent["cook_group"], spent["kind"]] += spent["nights"]
    reserves = []
    for reserve in problem.reserves:
        key = (reserve.place_id, reserve.cook_group_id, reserve.kind.value)
        taken = min(used[key], reserve.nights)
        used[key] -= taken
        if reserve.nights > taken:
            reserves.append(replace(reserve, nights=reserve.nights - taken))
    chosen: dict[str, list[tuple[int, str]]] = defaultdict(list)
    for night in rest["night_sets"]:
        chosen[night["cook_group"]].append((night["day"], night["set_id"]))
    waived = dict(problem.rules.waived)
    for step in rest["let_go"]:
        if step["rule_id"]:
            waived[step["rule_id"]] = step["reason"]
    for rule_id in rest.get("advisory_since", ()):
        waived.setdefault(rule_id, "used up on the way")
    return replace(
        problem,
        reserves=tuple(reserves),
        cook_groups=tuple(
            replace(group, set_on=tuple(chosen[group.cook_group_id]))
            for group in problem.cook_groups
        ),
        rules=replace(problem.rules, waived=tuple(waived.items())),
    )


def _step(index: int, one: LettingGoRequest, count: Count) -> ReadStep:
    pointer = f"/letting_go/{index}"
    if (one.rule_id is None) == (one.reserve is None):
        words = "Give a rule_id or a reserve, not both."
        count.faults.append(Fault(pointer, "missing", words))
    if one.rule_id is not None:
        rule = next((rule for rule in RULES if rule.rule_id == one.rule_id), None)
        if rule is None:
            words = unknown_id_words("rule", one.rule_id, [rule.rule_id for rule in RULES])
            count.faults.append(Fault(f"{pointer}/rule_id", "unknown_id", words))
        elif rule.firm:
            words = f"{rule.rule_id} is firm and cannot be let go: {rule.firm}."
            count.faults.append(Fault(f"{pointer}/rule_id", "cannot_be_waived", words))
    kind = ReserveKind(one.reserve) if one.reserve is not None else None
    return ReadStep(one.reason, one.rule_id, kind, one.place)


def _of_the_state(faults: tuple[Fault, ...]) -> tuple[Fault, ...]:
    """Faults of the request that the state changed, at the part of the state that changed it."""
    return tuple(
        replace(fault, pointer=fault.pointer if fault.pointer.startswith("/calendar") else "")
        for fault in faults
    )
