"""Leaving things with whom they were: fewer hand-overs under each trip's load fraction.

No more preferences are violated than before.

Trip by trip, every unit starts where it rode before, the others go in longest first, and
what is then too heavy, or not as preferred, is moved about until the trip is under its limit and
breaks no more preferences than it did.
"""

from __future__ import annotations

from collections import Counter
from functools import partial

import numpy as np

from solver.model.assignment.by_trip import by_trip, join, riding
from solver.model.assignment.draft import Draft
from solver.model.assignment.load_fractions import hand_overs, trip_fractions
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import spread_slack
from solver.model.goals.preferences import Asked, held_by
from solver.model.goals.repair import bar_equipment, repair
from solver.model.goals.soft_constraints import violated
from solver.model.goals.streaks import long_streaks
from solver.model.packing.empty_trip import empty_trip
from solver.model.packing.longest_first import longest_first
from solver.model.packing.swaps import lower_peak
from solver.model.packing.trip_load import TripLoad
from solver.progress import Watch

Riders = dict[str, Counter[str]]
"""By unit id, how many rode with each person on the unit's trip before."""


def keep_carriers(
    frame: Frame, draft: Draft, asked: Asked, limits: list[int], watch: Watch
) -> Draft:
    """A draft with fewer hand-overs whose trips stay under their limits [1/10,000]."""
    held_by_trip = by_trip(frame, draft)
    slack = spread_slack(frame, draft.rides())
    before: Riders = {}
    for trip, held in enumerate(held_by_trip):
        if watch.left() <= 0:
            break
        person_of = [carrier.person_id for carrier in frame.carriers[trip]]
        load = empty_trip(frame, trip, riding(held), slack[trip])
        granted = [
            constraint
            for constraint in asked[trip]
            if not violated(frame, trip, held, [constraint])
        ]
        bar_equipment(load, granted)
        _put_where_they_were(frame, load, person_of, before)
        longest_first(load)
        if lower_peak(load, target=limits[trip], most_moves=150) <= limits[trip]:
            allowed = len(asked[trip]) - len(granted)
            time_is_up = partial(_is_over, watch)
            broken_now = repair(
                load, asked[trip], limit=limits[trip], enough=allowed, is_over=time_is_up
            )
            kept = held if broken_now > allowed else held_by(load, trip)
            if _changes(frame, trip, kept, before) <= _changes(frame, trip, held, before):
                held_by_trip[trip] = kept
        before |= _riders(frame, trip, held_by_trip[trip])
    better = join(held_by_trip)
    if len(long_streaks(frame, better)) > len(long_streaks(frame, draft)):
        return draft
    return better if hand_overs(frame, better) < hand_overs(frame, draft) else draft


def _is_over(watch: Watch) -> bool:
    return watch.left() <= 0


def _put_where_they_were(
    frame: Frame, load: TripLoad, person_of: list[str], before: Riders
) -> None:
    """Put each piece with the person who had one like it, as long as that one has any left."""
    left = {unit_id: Counter(riders) for unit_id, riders in before.items()}
    for piece, cargo in enumerate(load.cargo.tolist()):
        riders = left.get(frame.world.cargo[cargo].unit_id)
        if not riders:
            continue
        theirs = np.array([riders[person] > 0 for person in person_of])
        level = np.where(theirs, load.levels_with(piece), np.inf)
        carrier = int(level.argmin())
        if np.isfinite(level[carrier]):
            load.put(piece, carrier)
            riders[person_of[carrier]] -= 1


def _riders(frame: Frame, trip: int, held: dict[tuple[int, str], int]) -> Riders:
    person_of = {c.carrier_id: c.person_id for c in frame.carriers[trip]}
    riders: Riders = {}
    for (cargo, carrier_id), units in held.items():
        unit_id = frame.world.cargo[cargo].unit_id
        riders.setdefault(unit_id, Counter())[person_of[carrier_id]] += units
    return riders


def _changes(frame: Frame, trip: int, held: dict[tuple[int, str], int], before: Riders) -> int:
    """Hand-overs of one trip against the trips before."""
    changed = 0
    for unit_id, riders in _riders(frame, trip, held).items():
        if unit_id in before:
            changed += (riders - before[unit_id]).total()
    return changed


def keeping_limits(frame: Frame, draft: Draft, peak: int, tolerance: int) -> list[int]:
    """How full each trip may get: its own fraction and the tolerance, never above the peak."""
    return [
        max(fraction, min(peak, fraction + fraction * tolerance // 10_000))
        for fraction in trip_fractions(frame, draft)
    ]
