"""The best move and the best exchange that repairs a soft constraint, weighed as arrays."""

from __future__ import annotations

import numpy as np

from solver.model.goals.violations import Violations, change_of
from solver.model.packing.trip_load import Bools, Ints, TripLoad

PairSlack = tuple[Ints, Ints]
"""What one carrier can take from another, rows that both count in left out: (C, C) by carrier
that gives and takes [g and mL]."""


Better = tuple[float, list[tuple[int, int]]]
"""A cost and the pieces that go, each with its new carrier."""


def pair_slack(load: TripLoad, belongs: Bools, most: Ints) -> PairSlack:
    """How much more each carrier can take from each other one before a row is full."""
    spare = most - load.load
    taken = belongs[None, :, :] & ~belongs[:, None, :]
    by_mass, by_volume = (
        np.where(taken & kind, spare, 2**40).min(axis=2) for kind in (load.of_mass, ~load.of_mass)
    )
    return by_mass, by_volume


def _one_of_each(load: TripLoad) -> Ints:
    """A piece of each cargo in each carrier, of those that have a choice."""
    pieces = np.flatnonzero(load.has_choice)
    key = load.cargo[pieces] * len(load.carriers) + load.where[pieces]
    _, first = np.unique(key, return_index=True)
    chosen: Ints = pieces[np.sort(first)]
    return chosen


def best_move(
    load: TripLoad, violations: Violations, slack: PairSlack, touched: Bools, cost: float
) -> Better | None:
    """The best move of one piece to or from touched carriers, (U, C) at once."""
    pieces = _one_of_each(load)
    homes, carriers = load.where[pieces], np.arange(len(load.carriers))
    allowed = load.able[pieces] & (homes[:, None] != carriers)
    allowed &= touched[homes][:, None] | touched
    for amount, spare in zip((load.mass, load.volume), slack, strict=True):
        allowed &= (amount[pieces][:, None] <= spare[homes]) | (amount[pieces] == 0)[:, None]
    for row in range(len(load.most)):
        more = load.member[row, pieces].astype(np.int64)[:, None]
        allowed &= (more == 0) | (load.counted[row] + more <= load.most[row])
    at, to = np.nonzero(allowed)
    if not len(at):
        return None
    change = change_of(
        violations, homes[at], to, load.mass[pieces[at]], violations.is_equipment[pieces[at]]
    )
    costs = violations.costs(violations.value + change)
    best = int(costs.argmin())
    if costs[best] >= cost:
        return None
    return float(costs[best]), [(int(pieces[at[best]]), int(to[best]))]


def best_swap(
    load: TripLoad, violations: Violations, slack: PairSlack, touched: Bools, cost: float
) -> Better | None:
    """The best exchange of a piece of touched carriers with another's, (U, U) at once."""
    others = _one_of_each(load)
    pieces = others[touched[load.where[others]]]
    home, there = load.where[pieces][:, None], load.where[others][None, :]
    allowed = (home != there) & load.able[pieces][:, load.where[others]]
    allowed &= load.able[others][:, load.where[pieces]].T
    for amount, spare in zip((load.mass, load.volume), slack, strict=True):
        more = amount[pieces][:, None] - amount[others]
        allowed &= (more <= 0) | (more <= spare[home, there])
        allowed &= (more >= 0) | (-more <= spare[there, home])
    for row in range(len(load.most)):
        member, held = load.member[row].astype(np.int64), load.counted[row]
        more = member[pieces][:, None] - member[others]
        allowed &= (more <= 0) | (held[there] + more <= load.most[row])
        allowed &= (more >= 0) | (held[home] - more <= load.most[row])
    at, to = np.nonzero(allowed)
    if not len(at):
        return None
    one, other = pieces[at], others[to]
    change = change_of(
        violations,
        load.where[one],
        load.where[other],
        load.mass[one] - load.mass[other],
        violations.is_equipment[one] - violations.is_equipment[other],
    )
    costs = violations.costs(violations.value + change)
    best = int(costs.argmin())
    if costs[best] >= cost:
        return None
    piece, partner = int(one[best]), int(other[best])
    return float(costs[best]), [
        (piece, int(load.where[partner])),
        (partner, int(load.where[piece])),
    ]
