"""Swap search: bringing one trip's largest load fraction down, move by move.

As long as a row above the target can be relieved, the fullest first, a piece leaves it for
another carrier, or changes places with a smaller one there, whichever leaves the worst of the
rows touched least full. Where the fullest row is stuck, relieving the next often frees it.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from solver.model.packing.trip_load import Bools, Floats, Ints, TripLoad

_LESS = 1e-9
"""By how much a move must be better, so that rounding cannot make the search go round [1]."""


_EMPTIEST = 10
"""Carriers that are looked at first for a move; most moves end there."""

_TRIES = 12
"""Rows above the target that are tried before the search gives up."""


def lower_peak(
    load: TripLoad,
    *,
    target: int,
    most_moves: int = 600,
    should_stop: Callable[[], bool] | None = None,
) -> int:
    """Move and swap until the peak is at the target or nothing helps; the peak reached.

    `should_stop` is asked before each move.
    """
    if load.has_choice.any():
        for _ in range(most_moves):
            if should_stop is not None and should_stop():
                break
            level = load.levels()
            fullest = np.argsort(-level, kind="stable")[:_TRIES].tolist()
            if not any(_relieve(load, row) for row in fullest if level[row] > target):
                break
    return load.peak()


def _relieve(load: TripLoad, fullest: int) -> bool:
    """Make the best move or swap that takes load off a row; whether there was one."""
    homes = np.flatnonzero((load.rows_of == fullest).any(axis=1))
    at_home = np.isin(load.where, homes)
    leaving = _one_of_each(load, np.flatnonzero(load.has_choice & at_home))
    level = load.levels()
    free = np.setdiff1d(np.arange(len(load.rows_of)), homes)
    free = free[np.argsort(level[load.rows_of[free]].max(axis=1), kind="stable")]
    move = None
    for carriers in (free[:_EMPTIEST], free[_EMPTIEST:]):
        in_them = load.has_choice & ~at_home & np.isin(load.where, carriers)
        others = _one_of_each(load, np.flatnonzero(in_them))
        partner = np.concatenate([others, np.full(len(carriers), -1)])
        place = np.concatenate([load.where[others], carriers])
        move = _best_move(load, leaving, partner, place, level[fullest])
        if move is not None:
            break
    if move is None:
        return False
    piece, carrier, other = move
    home = int(load.where[piece])
    load.put(piece, carrier)
    if other >= 0:
        load.put(other, home)
    return True


def _best_move(
    load: TripLoad, leaving: Ints, partner: Ints, place: Ints, below: float
) -> tuple[int, int, int] | None:
    """The piece, carrier and partner that leave the worst row least full, under a level."""
    if not len(leaving) or not len(place):
        return None
    worst = _worst(load, leaving, partner, place)
    piece, at = divmod(int(worst.argmin()), len(place))
    if worst[piece, at] >= below - _LESS:
        return None
    return int(leaving[piece]), int(place[at]), int(partner[at])


def _one_of_each(load: TripLoad, pieces: Ints) -> Ints:
    """One piece of each cargo in each carrier: the others would do the same."""
    if not len(pieces):
        return pieces
    key = load.cargo[pieces] * len(load.carriers) + load.where[pieces]
    _, first = np.unique(key, return_index=True)
    chosen: Ints = pieces[np.sort(first)]
    return chosen


def _worst(load: TripLoad, leaving: Ints, partner: Ints, place: Ints) -> Floats:
    """The fullest row touched by each exchange (L, K), infinite where it may not be.

    `leaving` (L,) are pieces, `partner` (K,) those that come back for one, −1 for none, `place`
    (K,) the carriers gone to.
    """
    home = load.where[leaving]
    real = partner >= 0
    mass = load.mass[leaving][:, None] - np.where(real, load.mass[partner], 0)
    volume = load.volume[leaving][:, None] - np.where(real, load.volume[partner], 0)
    here, there = load.rows_of[home], load.rows_of[place]
    # A row that both carriers belong to, as pack and sled of one person do, does not change.
    same = here[:, None, :, None] == there[None, :, None, :]
    less = np.where(load.of_mass[here][:, None, :], mass[:, :, None], volume[:, :, None])
    more = np.where(load.of_mass[there], mass[:, :, None], volume[:, :, None])
    after_here = load.load[here][:, None, :] - np.where(same.any(axis=3), 0, less)
    after_there = load.load[there] + np.where(same.any(axis=2), 0, more)
    worst = np.maximum(
        load.fullness(after_here, here[:, None, :]).max(axis=2),
        load.fullness(after_there, there).max(axis=2),
    )
    return np.where(
        _allowed(load, leaving, partner, place) & ((mass > 0) | (volume > 0)), worst, np.inf
    )


def _allowed(load: TripLoad, leaving: Ints, partner: Ints, place: Ints) -> Bools:
    """Which exchanges carriers and spread rows allow (L, K)."""
    home = load.where[leaving]
    real = partner >= 0
    allowed: Bools = load.able[leaving][:, place] & (~real | load.able[partner][:, home].T)
    for row in range(len(load.most)):
        theirs = np.where(real, load.member[row, partner], 0)
        more_there = load.member[row, leaving][:, None] - theirs
        counted, most = load.counted[row], load.most[row]
        allowed &= (more_there <= 0) | (counted[place] + more_there <= most)
        allowed &= (more_there >= 0) | (counted[home][:, None] - more_there <= most)
    return allowed
