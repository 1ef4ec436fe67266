"""The last goal: units that change the person who carries them from one trip to the next.

Trip by trip, every unit starts where it rode before, and the others go in longest first. What is
then too heavy or not as preferred is moved about until the trip is under its limit and violates
no more preferences than it did. There is no bound on how few hand-overs there must be, but 0.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from solver.model.assignment.by_trip import by_trip, join
from solver.model.assignment.draft import Draft, Held
from solver.model.assignment.load_fractions import hauler_of
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import spread_slack
from solver.model.goals.goal import SearchState, SearchTools
from solver.model.goals.pack_as_before import Riders, pack_as_before
from solver.model.goals.soft_constraint import SoftConstraints
from solver.model.goals.soft_constraints import soft_constraints
from solver.model.goals.streaks import long_streaks
from solver.problem import Item, NeedKind
from solver.progress import Watch


def value(frame: Frame, draft: Draft) -> int:
    """Units that change their carrier; personal items of every trip are left out [1]."""
    sleds = hauler_of(frame)
    by_unit: dict[str, dict[int, dict[str, int]]] = defaultdict(lambda: defaultdict(dict))
    for (cargo, trip, carrier_id), units in draft.carried.items():
        thing = frame.world.cargo[cargo]
        if units and not _is_day_equipment(thing.item):
            person_id = sleds.get(carrier_id, carrier_id)
            held = by_unit[thing.unit_id][trip]
            held[person_id] = held.get(person_id, 0) + units
    changed = 0
    for its_trips in by_unit.values():
        order = sorted(its_trips)
        for earlier, later in pairwise(order):
            before, after = its_trips[earlier], its_trips[later]
            kept = sum(min(units, before.get(person, 0)) for person, units in after.items())
            changed += sum(after.values()) - kept
    return changed


def bound(_: SearchState) -> int | None:
    """Nothing is proven beyond that there are no fewer than none [1]."""
    return 0


def improve(state: SearchState, tools: SearchTools) -> SearchState:
    """Leave units with whom they were, under each trip's limit."""
    draft = keep_carriers(
        tools.frame,
        state.draft,
        soft_constraints(tools.frame),
        limits=state.trip_limits,
        watch=tools.watch,
    )
    return replace(state, draft=draft)


def keep_carriers(
    frame: Frame,
    draft: Draft,
    constraints: SoftConstraints,
    *,
    limits: Sequence[int],
    watch: Watch,
) -> Draft:
    """A draft with fewer hand-overs whose trips stay under their limits [1/10,000]."""
    held_by_trip = by_trip(frame, draft)
    slack = spread_slack(frame, draft.rides())
    before: Riders = {}
    for trip, held in enumerate(held_by_trip):
        if watch.left() <= 0:
            break
        kept = pack_as_before(
            frame,
            trip,
            held,
            before,
            constraints[trip],
            slack=slack[trip],
            limit=limits[trip],
            watch=watch,
        )
        if _changes(frame, trip, kept, before) <= _changes(frame, trip, held, before):
            held_by_trip[trip] = kept
        before |= _riders(frame, trip, held_by_trip[trip])
    better = join(held_by_trip)
    if len(long_streaks(frame, better)) > len(long_streaks(frame, draft)):
        return draft
    return better if value(frame, better) < value(frame, draft) else draft


def _riders(frame: Frame, trip: int, held: Held) -> Riders:
    person_of = {c.carrier_id: c.person_id for c in frame.carriers[trip]}
    riders: Riders = {}
    for (cargo, carrier_id), units in held.items():
        unit_id = frame.world.cargo[cargo].unit_id
        riders.setdefault(unit_id, Counter())[person_of[carrier_id]] += units
    return riders


def _changes(frame: Frame, trip: int, held: Held, before: Riders) -> int:
    """Hand-overs of one trip against the trips before."""
    changed = 0
    for unit_id, riders in _riders(frame, trip, held).items():
        if unit_id in before:
            changed += (riders - before[unit_id]).total()
    return changed


def _is_day_equipment(item: Item | None) -> bool:
    return item is not None and item.owner_id is not None and item.need.kind is NeedKind.EVERY_TRIP
