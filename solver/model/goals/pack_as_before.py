"""One trip packed so that units ride with whom they rode before."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

import numpy as np

from solver.model.assignment.by_trip import riding
from solver.model.assignment.draft import Held
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import Slack
from solver.model.goals.equipment_moves import bar_equipment
from solver.model.goals.repair import repair
from solver.model.goals.soft_constraint import SoftConstraint, violated
from solver.model.packing.empty_trip import empty_trip
from solver.model.packing.longest_first import longest_first
from solver.model.packing.swaps import lower_peak
from solver.model.packing.trip_load import TripLoad
from solver.progress import Watch

Riders = dict[str, Counter[str]]
"""By unit id, how many rode with each person on the unit's trip before."""


def pack_as_before(
    frame: Frame,
    trip: int,
    held: Held,
    before: Riders,
    of_trip: Sequence[SoftConstraint],
    *,
    slack: Slack,
    limit: int,
    watch: Watch,
) -> Held:
    """The trip's units as they rode before, as far as its limit [1/10,000] and rows allow it.

    It violates no more soft constraints than `held`, which is the answer where that fails.
    """
    kept = [one for one in of_trip if not violated(frame, trip, held, [one])]
    load = empty_trip(frame, trip, riding(held), slack)
    bar_equipment(load, kept)
    _put_where_they_were(frame, trip, load, before)
    longest_first(load)
    if lower_peak(load, target=limit, most_moves=150, should_stop=watch.should_stop) > limit:
        return held
    allowed = len(of_trip) - len(kept)
    number = repair(load, of_trip, limit=limit, enough=allowed, is_over=lambda: watch.left() <= 0)
    return held if number > allowed else load.held()


def _put_where_they_were(frame: Frame, trip: int, load: TripLoad, before: Riders) -> None:
    """Put each piece with the person who had one like it, as long as that one has any left."""
    person_of = [carrier.person_id for carrier in frame.carriers[trip]]
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
