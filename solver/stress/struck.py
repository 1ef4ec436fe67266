"""A problem after a blow, and the followed plan as it goes on without what is gone."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from solver.checker.ledger.facts import Facts
from solver.checker.ledger.replay import Replay
from solver.checker.ledger.times import Time, arrival, departure, moment_of
from solver.checker.queries.personal import AT_HAND, LAYERS
from solver.plan import Load, Plan, Stowed, TripLoads
from solver.problem import Change, History, Item, NeedKind, Problem
from solver.stress.blows import Blow, BlowKind


@dataclass(frozen=True, slots=True)
class Struck:
    """A problem with a history that says what happened, and the nights to wait first.

    `changes_loads` says why the followed plan cannot go on as it is, empty where that is open.
    """

    problem: Problem
    wait_nights: int = 0
    changes_loads: str = ""


def struck(replay: Replay, blow: Blow, more: tuple[Change, ...] = ()) -> Struck:
    """The problem after a blow; `more` is what stands there besides, to see what it would do."""
    problem = replay.facts.problem
    lost = tuple(Change(place, unit, -count) for place, unit, count in blow.lost)
    history = History(blow.day, blow.kind is BlowKind.STORM, changes=lost + more)
    # What was made by hand was made for the plan without the blow.
    after = replace(problem, history=history, pins=())
    if blow.kind is BlowKind.SLED:
        after = _without_sleds(after, frozenset({blow.thing}), blow.day)
    elif blow.kind is BlowKind.PERSON:
        after = _carrying_nothing(replay, after, blow)
    return Struck(after, blow.nights, _needed_later(replay, blow))


def _needed_later(replay: Replay, blow: Blow) -> str:
    """Why a plan cannot go on without a sled or a carrier, empty where it may."""
    for record in replay.records:
        if record.trip.day <= blow.day:
            continue
        if blow.kind is BlowKind.SLED and blow.thing in record.trip.sled_ids:
            return f"sled {blow.thing} is hauled on day {record.trip.day}"
        for burden in record.burdens:
            carries = burden.sled is not None or burden.pack.mass_g > 0
            if blow.kind is BlowKind.PERSON and burden.person.person_id == blow.thing and carries:
                return f"{blow.thing} carries on day {record.trip.day}"
    return ""


def _without_sleds(problem: Problem, sled_ids: frozenset[str], day: int) -> Problem:
    sleds = (
        replace(s, last_day=min(day, s.last_day or day)) if s.sled_id in sled_ids else s
        for s in problem.sleds
    )
    return replace(problem, sleds=tuple(sleds))


def stays_on_owner(item: Item) -> bool:
    """Whether a personal thing is with its owner whoever else could carry it."""
    return (
        item.owner_id is not None
        and item.need.kind is not NeedKind.WORN
        and (item.need.kind is NeedKind.EVERY_TRIP or item.purpose in AT_HAND | LAYERS)
    )


def _carrying_nothing(replay: Replay, problem: Problem, blow: Blow) -> Problem:
    """The problem with a person who carries own water, lunch, layers and vital kit, no sled."""
    person = problem.person(blow.thing)
    kit_g = sum(
        item.mass_g * item.count
        for item in problem.gear
        if item.owner_id == person.person_id and stays_on_owner(item)
    )
    drunk_and_eaten = (
        burden.water_g + burden.lunch_g
        for record in replay.records
        for burden in record.burdens
        if burden.person.person_id == person.person_id and record.trip.day > blow.day
    )
    limit_g = kit_g + max(drunk_and_eaten, default=0)
    spared = replace(
        person,
        load_limit_g=min(limit_g, limit_g if person.load_limit_g is None else person.load_limit_g),
        load_limit_reason="can carry nothing",
        kit_to_rope_team=True,
    )
    hauled = frozenset(s.sled_id for s in problem.sleds if s.hauler_id == person.person_id)
    roster = tuple(spared if p.person_id == person.person_id else p for p in problem.roster)
    return _without_sleds(replace(problem, roster=roster), hauled, blow.day)


def going_on(facts: Facts, followed: Plan, waited: int = 0) -> Plan:
    """The followed plan without what is gone, `waited` nights later, weighed by the facts.

    Nobody takes from a place more of a unit than stands there; who has most of it goes short.
    What was done before the moment stays as it was. It says nothing of what stands where.
    """
    history = facts.problem.history
    day = 0 if history is None else history.day
    trips = [replace(t, day=t.day + waited) if t.day > day else t for t in followed.trips]
    cuts = _cuts(facts, followed, trips)
    weighed = tuple(
        _weighed(facts, trip, cuts.get(number, {})) if trip.day > day else trip
        for number, trip in enumerate(trips)
    )
    return replace(followed, trips=weighed, stock=(), keepers=())


def _cuts(facts: Facts, followed: Plan, trips: list[TripLoads]) -> dict[int, dict[str, int]]:
    """How many of each lost unit must stay behind on each trip, by the trip's number."""
    history = facts.problem.history
    changes = history.changes if history is not None else ()
    cuts: dict[int, dict[str, int]] = {}
    for unit_id in dict.fromkeys(change.unit_id for change in changes):
        for number, missing in _walk(facts, followed, trips, unit_id):
            cuts.setdefault(number, {})[unit_id] = missing
    return cuts


def _walk(
    facts: Facts, followed: Plan, trips: list[TripLoads], unit_id: str
) -> Iterable[tuple[int, int]]:
    """Follow one unit from the start: each trip's number with how many it cannot take."""
    history = facts.problem.history
    moments = {(t.day, t.step, t.from_place, t.to_place): t.moment for t in facts.timeline.trips}
    steps: list[tuple[Time, int, str, int, int]] = []
    if history is not None:
        now = moment_of(history, facts.timeline)
        steps += [
            (now, 0, c.place_id, c.count, -1) for c in history.changes if c.unit_id == unit_id
        ]
    for event in facts.night_events.get(unit_id, ()):
        steps.append((event.time, 0, event.place_id, event.change, -1))
    for number, trip in enumerate(trips):
        rides = sum(_count(load, unit_id) for load in trip.loads)
        moment = moments.get((trip.day, trip.step, trip.from_place, trip.to_place))
        if rides and moment is not None:
            steps.append((departure(moment), 1, trip.from_place, -rides, number))
            steps.append((arrival(moment), 1, trip.to_place, rides, number))
    stands = Counter({facts.problem.start_place: _taken_along(followed, unit_id)})
    moved: dict[int, int] = {}
    for _, _, place, change, number in sorted(steps, key=lambda step: step[:2]):
        if number < 0:
            stands[place] = max(stands[place] + change, 0)
        elif change < 0:
            moved[number] = min(-change, stands[place])
            stands[place] -= moved[number]
        else:
            stands[place] += moved[number]
            if moved[number] < change:
                yield number, change - moved[number]


def _taken_along(followed: Plan, unit_id: str) -> int:
    begins = (entry for entry in followed.stock if entry.day == 0)
    return sum(s.count for entry in begins for s in entry.units if s.unit_id == unit_id)


def _count(load: Load, unit_id: str) -> int:
    return sum(s.count for s in (*load.pack, *load.sled) if s.unit_id == unit_id)


def _weighed(facts: Facts, trip: TripLoads, cuts: Mapping[str, int]) -> TripLoads:
    """A trip's loads without what is cut, with the water, lunch and masses of the facts."""
    weights = facts.weights(trip.day - 1)
    key = (trip.day, trip.step, trip.from_place, trip.to_place)
    for made in facts.timeline.trips:
        if (made.day, made.step, made.from_place, made.to_place) == key:
            for item in facts.problem.gear:
                if item.in_use_on and facts.in_use(item, made):
                    weights[item.unit_id] = 0, 0
    left = Counter(cuts)

    def kept(stowed: tuple[Stowed, ...]) -> Iterable[Stowed]:
        for one in stowed:
            gone = min(left[one.unit_id], one.count)
            left[one.unit_id] -= gone
            mass_g, volume_ml = weights.get(one.unit_id, (one.mass_g, one.volume_ml))
            if one.count > gone:
                yield Stowed(one.unit_id, one.count - gone, mass_g, volume_ml)

    heaviest = sorted(trip.loads, key=lambda load: -sum(_count(load, unit) for unit in cuts))
    loads = {
        load.person_id: replace(
            load,
            water_g=facts.waters.get((load.person_id, trip.day), load.water_g),
            lunch_g=facts.lunches.get((load.person_id, trip.day), load.lunch_g),
            pack=tuple(kept(load.pack)),
            sled=tuple(kept(load.sled)),
        )
        for load in heaviest
    }
    return replace(trip, loads=tuple(loads[load.person_id] for load in trip.loads))
