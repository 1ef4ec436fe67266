"""Repackings counted: what stays with a person and changes between pack and sled."""

from __future__ import annotations

from collections import Counter, defaultdict
from itertools import pairwise

from solver.model.assignment.draft import Draft
from solver.model.assignment.load_fractions import hauler_of
from solver.model.formulation.frame import Frame
from solver.rulebook.goals import REPACKED_AT_STOP, REPACKED_BETWEEN_DAYS


def weighted_repackings(frame: Frame, draft: Draft) -> int:
    """Units that go from a person's pack to the sled or back, each times its weight [1]."""
    haulers, trips = hauler_of(frame), frame.world.timeline.trips
    held: dict[str, dict[int, Counter[tuple[str, bool]]]] = defaultdict(
        lambda: defaultdict(Counter)
    )
    for (cargo, trip, carrier_id), units in draft.carried.items():
        if units:
            where = haulers.get(carrier_id, carrier_id), carrier_id in haulers
            held[frame.world.cargo[cargo].unit_id][trip][where] += units
    hauling = [{one.person_id for one in on_trip if one.is_sled} for on_trip in frame.carriers]
    total = 0
    for on_trips in held.values():
        for earlier, later in pairwise(sorted(on_trips)):
            weight = repacking_weight(trips[earlier].day, trips[later].day)
            for person_id in hauling[earlier] & hauling[later]:
                before, after = (
                    [on_trips[trip][person_id, on_sled] for on_sled in (False, True)]
                    for trip in (earlier, later)
                )
                stay = min(sum(before), sum(after))
                total += weight * (stay - sum(map(min, before, after)))
    return total


def repacking_weight(earlier_day: int, later_day: int) -> int:
    """What a unit counts that is moved between trips of two days."""
    return REPACKED_AT_STOP if earlier_day == later_day else REPACKED_BETWEEN_DAYS
