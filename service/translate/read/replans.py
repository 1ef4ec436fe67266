"""A state that was counted on the way, read against the plan that was followed.

A stored re-plan is one document: the request as it now is, the plan that was followed, and the
state. Faults point into the state, as its caller wrote it.
"""

from __future__ import annotations

import copy
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from pydantic import ValidationError

from api_schema.replan import CountedUnitsRequest, LettingGoRequest, ReplanRequest
from service.errors import Fault, RequestFaults
from service.translate.read import quantities
from service.translate.read.near_names import unknown_id_words
from service.translate.read.requests import ReadRequest, read_plan_request
from service.translate.read.stored_plan import read_stored_plan
from service.translate.read.wire_faults import wire_faults
from solver.checker import check_request
from solver.checker.ledger.facts import Facts
from solver.checker.ledger.replay import replay
from solver.checker.ledger.times import moment_of
from solver.checker.standing import standing_at_moment
from solver.plan import Plan
from solver.problem import Change, History, Problem, ReserveKind
from solver.rulebook import RULES

_MUST_BE_CARRIED = ("trash/", "human-waste/")
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


@dataclass(slots=True)
class _Count:
    """Differences between what was counted and what the plan has, and faults of the count."""

    state: ReplanRequest
    problem: Problem
    facts: Facts
    planned: Mapping[tuple[str, str], int]
    faults: list[Fault] = field(default_factory=list)
    changes: list[Change] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)

    def change(self, place: str, unit_id: str, count: int, why: str) -> None:
        """Take down that so many more or fewer stand at a place."""
        self.changes.append(Change(place, unit_id, count))
        word = "more" if count > 0 else "fewer"
        self.notes.append(f"{place}: {abs(count)} {word} of {unit_id} than planned, {why}.")

    def known(self, pointer: str, place: str, unit_id: str) -> bool:
        """Whether place and unit are of the plan; a fault where one is not."""
        places = [one.place_id for one in self.problem.route.places]
        if place not in places:
            words = unknown_id_words("place", place, places)
            self.faults.append(Fault(f"{pointer}/place", "unknown_id", words))
        if unit_id not in self.facts.units:
            words = unknown_id_words("unit", unit_id, sorted(self.facts.units))
            self.faults.append(Fault(f"{pointer}/unit_id", "unknown_id", words))
        return place in places and unit_id in self.facts.units


def with_state(base: _Document, plan: _Document, of_plan: str, state: _Document) -> _Document:
    """The document of a re-plan: the request as it is from now on, plan, state and their plan."""
    read = _read_state(state)
    request = copy.deepcopy(base)
    if read.calendar is not None:
        request["calendar"] = copy.deepcopy(state["calendar"])
    if read.wait_nights and 1 <= _over(read).day <= len(request["calendar"]):
        _wait(request, _over(read).day, read.wait_nights)
    limits = {one.person_id: one for one in read.people}
    for person in request.get("roster", []):
        limit = limits.get(person.get("person_id"))
        if limit is not None:
            person["load_limit"] = limit.load_limit
            person["load_limit_reason"] = limit.reason
            # Sleeping kit and the like may ride with others, never what keeps a person alive.
            person["kit_to_rope_team"] = True
    options = {k: v for k, v in (request.get("options") or {}).items() if k != "near_plan"}
    if options or "options" in request:
        request["options"] = options
    return {"request": request, "plan": plan, "of_plan": of_plan, "state": state}


def read_replan(document: _Document) -> ReadReplan:
    """A stored re-plan; raises RequestFaults with every fault of its state."""
    state = _read_state(document["state"])
    over = _over(state)
    days = len(document["request"]["calendar"])
    if not 1 <= over.day < days:
        words = f"This leaves nothing to plan: the plan has {days} days."
        raise RequestFaults((Fault("/at/day", "out_of_range", words),))
    try:
        read = read_plan_request(document["request"], over)
    except RequestFaults as error:
        raise RequestFaults(_of_the_state(error.faults)) from None
    followed = read_stored_plan(document["plan"])
    problem = _as_settled(read.problem, document["plan"].get("rest"))
    problem = replace(problem, history=over)
    facts = check_request(problem).facts
    planned = {
        (one.place_id, one.unit_id): one.count for one in standing_at_moment(facts, followed)
    }
    count = _Count(state, problem, facts, planned)
    _take_counts(count)
    _take_losses(count)
    burnt = _burnt(count, followed)
    sleds = _sleds(count)
    people = {person.person_id for person in problem.roster}
    for index, one in enumerate(state.people):
        if one.person_id not in people:
            words = unknown_id_words("person", one.person_id, sorted(people))
            count.faults.append(Fault(f"/people/{index}/person_id", "unknown_id", words))
    steps = tuple(_step(index, one, count) for index, one in enumerate(state.letting_go))
    if count.faults:
        raise RequestFaults(tuple(count.faults))
    history = replace(over, changes=tuple(count.changes), burnt_ml=burnt)
    whole = replace(problem, history=history, sleds=sleds)
    return ReadReplan(
        read=replace(read, problem=whole),
        followed=followed,
        of_plan=document["of_plan"],
        state=state,
        letting_go=steps,
        unexplained=tuple(count.notes),
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


def _take_counts(count: _Count) -> None:
    """What was counted, against what should stand there; more than ever was is a fault."""
    for index, one in enumerate(count.state.counts):
        pointer = f"/counts/{index}"
        if not count.known(pointer, one.place, one.unit_id):
            continue
        counted = _counted(one)
        if counted is None:
            words = "Give count, or low and high with low not above high."
            count.faults.append(Fault(pointer, "missing", words))
            continue
        change = counted - count.planned.get((one.place, one.unit_id), 0)
        if change:
            count.change(one.place, one.unit_id, change, "as counted")
    total: dict[str, int] = defaultdict(int)
    for (_, unit_id), planned in count.planned.items():
        total[unit_id] += planned
    for found in count.changes:
        total[found.unit_id] += found.count
    for index, one in enumerate(count.state.counts):
        ever = sum(n for (_, unit), n in count.planned.items() if unit == one.unit_id)
        if total.get(one.unit_id, 0) > ever:
            words = (
                f"With what stands elsewhere that makes {total[one.unit_id]} of {one.unit_id}, and "
                f"there are {ever}. Count again, or say where others are gone from."
            )
            count.faults.append(Fault(f"/counts/{index}", "more_than_there_is", words))


def _counted(one: CountedUnitsRequest) -> int | None:
    """The number that a count stands for: low for what is used, high for what is carried down."""
    if one.count is not None:
        return one.count if one.low is None and one.high is None else None
    if one.low is None or one.high is None or one.low > one.high:
        return None
    is_waste = one.unit_id.startswith(_MUST_BE_CARRIED) or "/empty-" in one.unit_id
    return one.high if is_waste else one.low


def _take_losses(count: _Count) -> None:
    gone: dict[tuple[str, str], int] = defaultdict(int)
    for change in count.changes:
        gone[change.place_id, change.unit_id] += change.count
    for index, one in enumerate(count.state.lost):
        pointer = f"/lost/{index}"
        if not count.known(pointer, one.place, one.unit_id):
            continue
        there = count.planned.get((one.place, one.unit_id), 0) + gone[one.place, one.unit_id]
        if one.count > there:
            words = f"At {one.place} there are {there} of {one.unit_id} at that moment."
            count.faults.append(Fault(f"{pointer}/count", "more_than_there_is", words))
            continue
        gone[one.place, one.unit_id] -= one.count
        count.change(one.place, one.unit_id, -one.count, "lost")


def _burnt(count: _Count, followed: Plan) -> tuple[tuple[str, int], ...]:
    """Fuel burnt beyond the plan by cook group [mL], from what is left of it in all."""
    groups = [group.cook_group_id for group in count.problem.cook_groups]
    burnt: list[tuple[str, int]] = []
    for index, one in enumerate(count.state.fuel_left):
        pointer = f"/fuel_left/{index}"
        if one.cook_group not in groups:
            words = unknown_id_words("cook group", one.cook_group, groups)
            count.faults.append(Fault(f"{pointer}/cook_group", "unknown_id", words))
            continue
        places = [place.place_id for place in count.problem.route.places]
        if one.place is not None and one.place not in places:
            words = unknown_id_words("place", one.place, places)
            count.faults.append(Fault(f"{pointer}/place", "unknown_id", words))
            continue
        planned_ml = _fuel_there(count, followed, one.cook_group, one.place)
        left_ml = quantities.whole_down(one.amount)
        if left_ml < planned_ml:
            burnt.append((one.cook_group, planned_ml - left_ml))
            count.notes.append(
                f"{(planned_ml - left_ml) / 1000:.2f} L more fuel burnt than planned by "
                f"{one.cook_group}."
            )
    return tuple(burnt)


def _fuel_there(count: _Count, followed: Plan, group: str, place: str | None) -> int:
    """Fuel of a cook group that should be left at the moment, with the changes [mL].

    At one place, or at all together where none is named.
    """
    history, facts = count.problem.history, count.facts
    if history is None:
        return 0
    now = moment_of(history, facts.timeline)
    courses = replay(facts, followed).courses
    lost: dict[str, int] = defaultdict(int)
    for change in count.changes:
        if place in {None, change.place_id}:
            lost[change.unit_id] += change.count
    total_ml = 0
    for unit_id, unit in facts.units.items():
        if unit.cook_group_id == group:
            standing = courses[unit_id].at(now)
            there = sum(standing.values()) if place is None else standing.get(place, 0)
            there += lost[unit_id]
            each_ml = facts.open_ml.get((unit_id, history.nights), unit.content_ml)
            total_ml += there * each_ml
    return total_ml


def _sleds(count: _Count) -> tuple[Any, ...]:
    history, problem = count.problem.history, count.problem
    known = [sled.sled_id for sled in problem.sleds]
    for index, sled_id in enumerate(count.state.sleds_lost):
        if sled_id not in known:
            words = unknown_id_words("sled", sled_id, known)
            count.faults.append(Fault(f"/sleds_lost/{index}", "unknown_id", words))
    last = history.day if history is not None else 0
    gone = set(count.state.sleds_lost)
    return tuple(replace(s, last_day=last) if s.sled_id in gone else s for s in problem.sleds)


def _step(index: int, one: LettingGoRequest, count: _Count) -> ReadStep:
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
