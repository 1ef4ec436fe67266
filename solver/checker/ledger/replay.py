"""The replay of a plan: what rides on every trip and what stands where at every time.

Whatever a plan names that cannot be, the replay goes on: an unknown unit or a count below one
is left out, a load of a person outside the party moves all the same, a trip without loads
moves nothing. The rules look at the same places and find it. What a night uses up is used up
and what it makes is made as the calendar says, whether the plan has it there or not.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field, replace
from operator import attrgetter

from solver.checker.ledger.course import Course, Event, follow
from solver.checker.ledger.facts import Facts
from solver.checker.ledger.loads import Scales, TripRecord, match_trips, record_trip
from solver.checker.ledger.once import Memory
from solver.checker.ledger.times import arrival, departure, moment_of
from solver.plan import Plan, TripLoads
from solver.problem import Problem, Trip

AS_MANY_AS_NEEDED = 10**9
"""What stands at the start of a kind of which a plan without stock does not say how many."""


@dataclass(frozen=True, slots=True)
class Replay:
    """A problem and a plan with everything that the rules ask of them."""

    facts: Facts
    plan: Plan
    records: tuple[TripRecord, ...]
    loads_of_no_trip: tuple[TripLoads, ...]
    courses: dict[str, Course]
    memory: Memory = field(init=False, default_factory=dict, compare=False, repr=False)

    @property
    def to_come(self) -> tuple[TripRecord, ...]:
        """The records of trips that are not over yet: all of them without a history."""
        return tuple(r for r in self.records if not self.facts.problem.is_over(r.trip.day))


def replay(facts: Facts, plan: Plan) -> Replay:
    """Replay a plan on the facts of its problem; the plan may have any fault."""
    planned, no_trip = match_trips(facts.timeline, plan)
    records = tuple(_record(facts, trip, planned.get(trip.index)) for trip in facts.timeline.trips)
    return Replay(facts, plan, records, no_trip, _courses(facts, plan, records))


def _record(facts: Facts, trip: Trip, planned: TripLoads | None) -> TripRecord:
    weights = facts.weights(trip.day - 1)
    for item in facts.problem.gear:
        if item.in_use_on and facts.in_use(item, trip):
            weights[item.unit_id] = 0, 0
    return record_trip(
        trip,
        planned,
        people={p.person_id: p for p in facts.problem.everybody},
        sleds=facts.problem.sleds,
        lunches=facts.lunches,
        waters=facts.waters,
        scales=Scales(weights, facts.units.keys()),
    )


def _courses(facts: Facts, plan: Plan, records: tuple[TripRecord, ...]) -> dict[str, Course]:
    """Follow every unit through its trips and nights."""
    nearest = _nearest(facts.problem)
    provided = _provided(facts, plan)
    riding = _rides(records)
    return {
        unit_id: follow(
            _in_order(facts, unit_id, riding.get(unit_id, ())),
            provided=provided[unit_id],
            home=facts.problem.start_place,
            nearest=nearest,
        )
        for unit_id in facts.units
    }


def events_of(facts: Facts, records: Iterable[TripRecord], unit_id: str) -> list[Event]:
    """What happens to the units of one id on nights and trips, in order of time."""
    riding = _rides(records, only=unit_id)
    return _in_order(facts, unit_id, riding.get(unit_id, ()))


def _rides(records: Iterable[TripRecord], only: str | None = None) -> dict[str, list[Event]]:
    """Departures and arrivals by unit id, of all or of one."""
    rides: dict[str, list[Event]] = defaultdict(list)
    for record in records:
        trip = record.trip
        leaves, arrives = departure(trip.moment), arrival(trip.moment)
        here, there = trip.from_place, trip.to_place
        counts = record.counts if only is None else {only: record.counts.get(only, 0)}
        for unit_id, count in counts.items():
            if count:
                rides[unit_id] += (
                    Event(leaves, here, -count, trip.index),
                    Event(arrives, there, count, trip.index),
                )
    return rides


def _in_order(facts: Facts, unit_id: str, rides: Iterable[Event]) -> list[Event]:
    """The rides of one unit id with what nights and counts change, in order of time."""
    events = list(facts.night_events.get(unit_id, ()))
    history = facts.problem.history
    for one in history.chain if history is not None else ():
        if any(change.unit_id == unit_id for change in one.changes):
            then = moment_of(one, facts.timeline)
            found = (change for change in one.changes if change.unit_id == unit_id)
            events += [Event(then, change.place_id, change.count) for change in found]
    events += rides
    return sorted(events, key=_time)


_time = attrgetter("time")


def without_one(
    replay: Replay, unit_id: str, trips: Collection[int], *, instead: str | None = None
) -> Replay:
    """The replay without one of the units that ride some trips, out of the fullest carrier.

    With `instead` one of another id goes in its place. Nights use what they use, whether it is
    there or not. Masses stay as they are, and what the plan says of its stock is forgotten.
    """
    change = Counter({unit_id: -1})
    if instead is not None:
        change[instead] += 1
    records = tuple(
        _changed(record, unit_id, change) if record.trip.index in trips else record
        for record in replay.records
    )
    home, nearest = replay.facts.problem.start_place, _nearest(replay.facts.problem)
    courses = {
        changed: follow(
            events_of(replay.facts, records, changed),
            provided=replay.courses[changed].counts[0].get(home, 0) + more,
            home=home,
            nearest=nearest,
        )
        for changed, more in change.items()
    }
    plan = replace(replay.plan, stock=())
    return replace(replay, plan=plan, records=records, courses=replay.courses | courses)


def _changed(record: TripRecord, unit_id: str, change: Counter[str]) -> TripRecord:
    """A record with other units in the carrier that has most of one id."""
    most = max(record.carriers, key=lambda carrier: carrier.counts[unit_id])
    carriers = tuple(
        replace(carrier, counts=_sum(carrier.counts, change)) if carrier is most else carrier
        for carrier in record.carriers
    )
    return replace(record, carriers=carriers, counts=_sum(record.counts, change))


def _sum(counts: Counter[str], change: Counter[str]) -> Counter[str]:
    """Counts after a change, those of 0 left out."""
    after = counts.copy()
    after.update(change)
    return +after


def _provided(facts: Facts, plan: Plan) -> dict[str, int]:
    """How many of each unit stand at the start: what the problem says, else the plan.

    Of gear the problem says what is left; what a history has lost was there as well.
    """
    history = facts.problem.history
    brought: dict[str, int] = defaultdict(int)
    begins = [entry for entry in plan.stock if entry.day == 0]
    for entry in begins:
        if entry.place_id == facts.problem.start_place:
            for stowed in entry.units:
                brought[stowed.unit_id] += max(stowed.count, 0)
    return {
        unit_id: unit.provided + (history.lost(unit_id) if history and unit.item else 0)
        if unit.provided is not None
        else (brought[unit_id] if begins else AS_MANY_AS_NEEDED)
        for unit_id, unit in facts.units.items()
    }


def _nearest(problem: Problem) -> Mapping[str, list[str]]:
    """For each place all the others, the nearest along the route first."""
    route = problem.route
    places = [place.place_id for place in route.places]
    return {
        here: sorted((p for p in places if p != here), key=lambda p: len(route.path(here, p)))
        for here in places
    }
