"""Two loads of a trip exchange up to two pieces for up to two.

On a full trip one piece fits in the place of another only where both weigh nearly the same. Two for
one or two nearly always come near enough somewhere.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from itertools import combinations

import numpy as np

from solver.model.goals.steady.beside import Beside
from solver.model.goals.steady.expedition import OneTrip
from solver.model.goals.steady.trial import keep_if_better
from solver.model.packing.trip_load import Bools, Floats, Ints
from solver.model.work import Work

_MOST_PIECES = 16
"""How many pieces of a load take part, those first whose going elsewhere costs least [1]."""

_TRIED = 4
"""How many of the exchanges that seem best are tried [1]."""


@dataclass(frozen=True, slots=True)
class _Groups:
    """G groups of up to two of P pieces: who is in each (G, P), what they add to rows (G, R).

    `cost` (G,) is what their going costs.
    """

    pieces: Ints
    member: Ints
    amount: Ints
    cost: Floats

    def group(self, number: int) -> list[int]:
        """The pieces of a group."""
        its: list[int] = self.pieces[self.member[number] > 0].tolist()
        return its


def exchange_several(one: OneTrip, sides: Beside, free: Bools, work: Work) -> bool:
    """Exchange pieces between any two loads where that costs less; whether any were."""
    changed = False
    for home, other in combinations(range(len(one.load.carriers)), 2):
        if one.person[home] == one.person[other]:
            continue
        while not work.is_over() and _exchange(one, sides, free, (home, other), work):
            changed = True
    return changed


def _exchange(
    one: OneTrip, sides: Beside, free: Bools, between: tuple[int, int], work: Work
) -> bool:
    home, other = between
    here, there = _free(one, free, home, other), _free(one, free, other, home)
    costs = _costs(one, sides, here, other), _costs(one, sides, there, home)
    if min(cost.min(initial=0.0) for cost in costs) >= 0:
        return False
    mine, theirs = _groups(one, here, costs[0]), _groups(one, there, costs[1])
    cost = mine.cost[:, None] + theirs.cost
    work.spend(cost.size)
    at = np.argwhere(cost < 0)
    at = at[_fits(one, between, mine.amount[at[:, 0]] - theirs.amount[at[:, 1]])]
    best = np.argsort(cost[at[:, 0], at[:, 1]], kind="stable")[:_TRIED]
    return any(
        keep_if_better(one, sides, [(mine.group(a), home, other), (theirs.group(b), other, home)])
        for a, b in at[best].tolist()
    )


def _free(one: OneTrip, free: Bools, home: int, other: int) -> Ints:
    return np.flatnonzero(free & (one.load.where == home) & one.load.able[:, other])


def _costs(one: OneTrip, sides: Beside, pieces: Ints, to: int) -> Floats:
    """What swaps cost more with each of some pieces in another load (N,)."""
    if not len(pieces):
        return np.zeros(0)
    mine, theirs = int(one.person[one.load.where[pieces[0]]]), int(one.person[to])
    unit = sides.unit[pieces]
    count, held, weight = sides.count[unit], sides.held[:, unit], sides.weight[:, unit]
    less = (weight * (count[:, mine] <= held[:, :, mine])).sum(axis=0)
    more = (weight * (count[:, theirs] < held[:, :, theirs])).sum(axis=0)
    cost: Floats = (less - more).astype(np.float64)
    return cost


def _groups(one: OneTrip, pieces: Ints, cost: Floats) -> _Groups:
    """The groups of some pieces, none of them among these."""
    order = np.argsort(cost, kind="stable")[:_MOST_PIECES]
    pieces, cost = pieces[order], cost[order]
    member = _members(len(pieces))
    return _Groups(pieces, member, member @ one.amount[pieces], member @ cost)


@cache
def _members(pieces: int) -> Ints:
    """Which of some pieces are in each group of up to two (G, pieces)."""
    groups = [group for size in (0, 1, 2) for group in combinations(range(pieces), size)]
    member = np.zeros((len(groups), pieces), dtype=np.int64)
    for row, group in enumerate(groups):
        member[row, list(group)] = 1
    return member


def _fits(one: OneTrip, between: tuple[int, int], gone: Ints) -> Bools:
    """Whether both loads keep their rows where so much goes from one to the other (N, R)."""
    home, other = between
    spare = one.most - one.load.load
    mine, theirs = one.rows[home] & ~one.rows[other], one.rows[other] & ~one.rows[home]
    fits: Bools = (gone[:, theirs] <= spare[theirs]).all(axis=1)
    fits &= (-gone[:, mine] <= spare[mine]).all(axis=1)
    return fits
