"""A former plan set beside the trips of a frame, and what of it has changed."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator

from solver.model.assignment.draft import Draft
from solver.model.assignment.load_fractions import hauler_of
from solver.model.formulation.former import Former, Had
from solver.model.formulation.frame import Frame
from solver.model.rows import sled_carrier
from solver.plan import Plan, TripLoads


def read_former(frame: Frame, plan: Plan) -> Former:
    """A former plan as the frame's trips have it; what the frame does not know is left out."""
    known = {thing.unit_id for thing in frame.world.cargo}
    waiting: dict[tuple[str, str], list[TripLoads]] = defaultdict(list)
    for loads in plan.trips:
        waiting[loads.from_place, loads.to_place].append(loads)
    had: list[Had] = []
    packed: list[Had] = []
    for trip in frame.world.timeline.trips:
        same_way = waiting[trip.from_place, trip.to_place]
        told = _with_most(same_way, set(trip.person_ids)) if same_way else None
        by_person: Had = Counter()
        by_carrier: Had = Counter()
        for unit_id, person_id, carrier_id, count in _lines(told):
            if unit_id in known and person_id in trip.person_ids:
                by_person[unit_id, person_id] += count
                by_carrier[unit_id, carrier_id] += count
        had.append(by_person)
        packed.append(by_carrier)
    return Former(tuple(had), tuple(packed))


def had_by(frame: Frame, draft: Draft) -> list[Had]:
    """Who has what on each trip of a draft."""
    haulers = hauler_of(frame)
    had: list[Had] = [Counter() for _ in frame.world.timeline.trips]
    for (cargo, trip, carrier_id), units in draft.carried.items():
        if units:
            who = haulers.get(carrier_id, carrier_id)
            had[trip][frame.world.cargo[cargo].unit_id, who] += units
    return had


def changes(former: Former, had: list[Had]) -> int:
    """Units that people have on a trip and did not have before, over all trips [1]."""
    return sum(changes_by_trip(former, had))


def changes_by_trip(former: Former, had: list[Had]) -> list[int]:
    """The same for each trip."""
    return [(now - then).total() for now, then in zip(had, former.had, strict=True)]


def _with_most(same_way: list[TripLoads], members: set[str]) -> TripLoads:
    """The first of the trips that are next in the same step, with most of the same people."""
    first = same_way[0]
    together = [one for one in same_way if (one.day, one.step) == (first.day, first.step)]
    told = max(together, key=lambda one: len(members & {load.person_id for load in one.loads}))
    same_way.remove(told)
    return told


def _lines(told: TripLoads | None) -> Iterator[tuple[str, str, str, int]]:
    """Each line as unit, person, pack or sled, and count."""
    for load in told.loads if told is not None else ():
        for line in load.pack:
            yield line.unit_id, load.person_id, load.person_id, line.count
        for line in load.sled if load.sled_id is not None else ():
            yield line.unit_id, load.person_id, sled_carrier(load.sled_id or ""), line.count
