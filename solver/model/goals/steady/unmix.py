"""Fuel and food apart on one trip: a load gives away all that it has of one of them at once.

Where many loads hold a few cans beside their food, one can exchanged for one bag meets nothing, so
pieces that move one at a time never begin.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from solver.model.goals.steady.beside import Beside
from solver.model.goals.steady.expedition import OneTrip
from solver.model.goals.steady.trial import keep_if_better
from solver.model.packing.trip_load import Bools, Ints
from solver.model.work import Work

_MOST_OTHERS = 12
"""How many other loads are asked to take what one gives away [1]."""


def unmix(one: OneTrip, sides: Beside, free: Bools, work: Work) -> bool:
    """Have loads with fuel and food give away one of them, for other things; whether any did.

    Those that have least to give go first. It costs less in the end, or nothing changes.
    """
    changed = False
    for home in _mixed(one):
        for kind in np.argsort(one.kinds_in[:, home], kind="stable").tolist():
            if work.is_over() or one.kinds_in[:, home].min() == 0:
                break
            work.spend(one.load.able.size)
            changed |= _give_away(one, sides, free, home, kind)
    return changed


def _mixed(one: OneTrip) -> list[int]:
    fewer = one.kinds_in.min(axis=0)
    mixed = np.flatnonzero(fewer)
    order: list[int] = mixed[np.argsort(fewer[mixed], kind="stable")].tolist()
    return order


def _give_away(one: OneTrip, sides: Beside, free: Bools, home: int, kind: int) -> bool:
    """Give all pieces of a kind to another load that is no worse for it."""
    given = np.flatnonzero((one.load.where == home) & (one.kinds[kind] > 0))
    if not free[given].all():
        return False
    for other in _takers(one, given, home, kind):
        back = _in_return(one, free, given, (home, other), kind)
        if back is None:
            continue
        if keep_if_better(one, sides, [(given.tolist(), home, other), (back, other, home)]):
            return True
    return False


def _takers(one: OneTrip, given: Ints, home: int, kind: int) -> Iterator[int]:
    """Loads that are mixed already or hold nothing of the other kind: those with most first."""
    theirs, others = one.kinds_in[kind], one.kinds_in[1 - kind]
    can = one.load.able[given].all(axis=0) & ((others == 0) | (theirs > 0))
    can[home] = False
    at = np.flatnonzero(can)
    yield from at[np.lexsort((at, others[at], -theirs[at]))][:_MOST_OTHERS].tolist()


def _in_return(
    one: OneTrip, free: Bools, given: Ints, ways: tuple[int, int], kind: int
) -> list[int] | None:
    """Pieces that come back, so that both loads fit; None where there are none such."""
    home, other = ways
    load, spare = one.load, one.most - one.load.load
    mine, theirs = one.rows[home] & ~one.rows[other], one.rows[other] & ~one.rows[home]
    total = one.amount[given].sum(axis=0)
    least, most = (total - spare)[theirs], (total + spare)[mine]
    may = free & (load.where == other) & load.able[:, home] & (one.kinds[kind] == 0)
    pieces = np.flatnonzero(may)
    pieces = pieces[np.argsort(-load.mass[pieces], kind="stable")]
    back: list[int] = []
    here, there = np.zeros_like(most), np.zeros_like(least)
    for piece in pieces.tolist():
        if (there >= least).all():
            break
        amount = one.amount[piece]
        if (here + amount[mine] <= most).all():
            back.append(piece)
            here, there = here + amount[mine], there + amount[theirs]
    return back if (there >= least).all() else None
