"""How much room people have on a trip."""

from __future__ import annotations

import numpy as np

from solver.model.goals.steady.expedition import OneTrip


def room_of(one: OneTrip) -> float:
    """What people may still take on average, as a share of what they may have [1].

    Each person counts by whatever is nearest to what it may hold, masses and volumes alike.
    """
    load = one.load
    left = (one.most - load.load) / np.maximum(one.most, 1)
    people = np.unique(one.person).tolist()
    return sum(float(left[load.rows_of[one.person == p]].min()) for p in people) / max(
        len(people), 1
    )
