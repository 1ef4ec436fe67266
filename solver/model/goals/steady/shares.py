"""Each person's share on a trip: the largest load fraction of all that they have."""

from __future__ import annotations

from statistics import mean

import numpy as np

from solver.model.goals.steady.expedition import Expedition, OneTrip
from solver.model.packing.trip_load import Floats


def shares_of(one: OneTrip) -> Floats:
    """Load fractions by person (K,) [1/10,000]; people who are not on the trip have NaN."""
    full = one.load.levels()[one.load.rows_of].max(axis=1)
    shares = np.full(int(one.person.max(initial=-1)) + 1, np.nan)
    np.fmax.at(shares, one.person, full)
    return shares


def least_share(one: OneTrip, cost: Floats) -> int:
    """The carrier with the least cost (C,), of alike ones that of whoever has the smallest share.

    So nobody is filled up while others have little.
    """
    return int(np.lexsort((shares_of(one)[one.person], cost))[0])


def above_others(expedition: Expedition) -> float:
    """By how much the weakest's mean share over all trips is above everybody's [1/10,000]."""
    weak, everybody = list[float](), list[float]()
    for one in expedition.trips:
        shares = shares_of(one)
        weak += shares[np.unique(one.person[one.on_weak])].tolist()
        everybody += shares[~np.isnan(shares)].tolist()
    return mean(weak) - mean(everybody) if weak else 0.0
