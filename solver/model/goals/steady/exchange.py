"""One trip repaired with the fewest swaps: moves and exchanges by what they cost in all.

The cost is how far rows are above what they may hold, preferences that are broken, and swaps
with the trips before and after. Each step takes the best move of one piece or exchange of two,
all of them weighed at once; only those that touch something that costs are looked at.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from solver.model.goals.steady.costs import Prices, broken_cost, mixed_cost
from solver.model.goals.steady.expedition import Expedition, OneTrip
from solver.model.goals.steady.marginals import Marginals
from solver.model.goals.violations import change_of
from solver.model.packing.trip_load import Bools, Floats, Ints

_BETTER = 1e-6


@dataclass(frozen=True, slots=True)
class Steps:
    """N possible steps: a piece goes to a carrier, and for an exchange another comes back (−1)."""

    piece: Ints
    other: Ints
    to: Ints

    def of(self, chosen: Ints) -> Steps:
        """Some of the steps."""
        return Steps(self.piece[chosen], self.other[chosen], self.to[chosen])

    def difference(self, amount: Ints) -> Ints:
        """How much more goes than comes back, of something that each piece has (N,)."""
        more: Ints = amount[self.piece] - np.where(self.other >= 0, amount[self.other], 0)
        return more


def exchange(expedition: Expedition, trip: int, prices: Prices, *, most_steps: int = 200) -> int:
    """Take the best step of a trip again and again until none is better; how many were taken."""
    one = expedition.trips[trip]
    if not one.load.has_choice.any():
        return 0
    marginals = Marginals(expedition, trip)
    for taken in range(most_steps):
        steps = _steps(one, marginals)
        if not len(steps.piece):
            return taken
        best = _best(one, steps, marginals, prices)
        if best is None:
            return taken
        piece, other, to = best
        home = int(one.load.where[piece])
        one.put(piece, to)
        marginals.moved(piece)
        if other >= 0:
            one.put(other, home)
            marginals.moved(other)
    return most_steps


def _steps(one: OneTrip, marginals: Marginals) -> Steps:
    """Steps with a piece that would rather be elsewhere, or of a carrier where something costs."""
    load, count = one.load, len(one.load.carriers)
    pieces = np.flatnonzero(load.has_choice)
    _, first = np.unique(load.cargo[pieces] * count + load.where[pieces], return_index=True)
    pieces = pieces[np.sort(first)]
    homes = load.where[pieces]
    gain = marginals.leaving[pieces, homes][:, None] + marginals.coming[pieces]
    elsewhere = one.person[homes][:, None] != one.person
    unhappy = ((gain < 0) & elsewhere & load.able[pieces]).any(axis=1)
    unhappy |= one.away[pieces, homes] > 0
    focus = pieces[unhappy | _costly(one)[homes]]
    at, to = np.nonzero(load.able[pieces])
    wanted = np.isin(pieces[at], focus) | _costly(one)[to]
    wanted &= load.where[pieces[at]] != to
    moves = Steps(pieces[at[wanted]], np.full(int(wanted.sum()), -1), to[wanted])
    left, right = np.nonzero(np.ones((len(focus), len(pieces)), dtype=bool))
    a, b = focus[left], pieces[right]
    allowed = (load.where[a] != load.where[b]) & load.able[a, load.where[b]]
    allowed &= load.able[b, load.where[a]] & (load.cargo[a] != load.cargo[b])
    a, b = a[allowed], b[allowed]
    return Steps(
        np.concatenate([moves.piece, a]),
        np.concatenate([moves.other, b]),
        np.concatenate([moves.to, load.where[b]]),
    )


def _costly(one: OneTrip) -> Bools:
    """Carriers in a row that is too full, a broken preference, or with fuel beside food (C,)."""
    load = one.load
    costly: Bools = one.broken_at() | (one.rows & (load.load > one.most)).any(axis=1)
    costly |= (load.counted > load.most[:, None]).any(axis=0)
    return costly


def _best(
    one: OneTrip, steps: Steps, marginals: Marginals, prices: Prices
) -> tuple[int, int, int] | None:
    """The step that costs least, if it is better than none."""
    home = one.load.where[steps.piece]
    cost = _swap_cost(one, steps, home, marginals)
    excess = _row_cost(one, steps, home, prices) + _spread_cost(one, steps, home, prices)
    # Grams above a limit may cost less than a preference, but nothing makes up for them.
    cost += np.where(excess > 0, np.inf, excess)
    cost += _mixed_cost(one, steps, home, prices) + _away_cost(one, steps, home, prices)
    now = float(broken_cost(one.violations, one.violations.value, prices))
    near = np.flatnonzero(cost < now - _BETTER)
    if not len(near):
        return None
    if len(one.violations.value):
        some = steps.of(near)
        change = change_of(
            one.violations,
            home[near],
            some.to,
            some.difference(one.load.mass),
            some.difference(one.violations.is_equipment),
        )
        after = broken_cost(one.violations, one.violations.value + change, prices)
        total = cost[near] + after - now
    else:
        total = cost[near]
    best = int(total.argmin())
    if total[best] >= -_BETTER:
        return None
    at = int(near[best])
    return int(steps.piece[at]), int(steps.other[at]), int(steps.to[at])


def _swap_cost(one: OneTrip, steps: Steps, home: Ints, marginals: Marginals) -> Floats:
    coming, leaving = marginals.coming, marginals.leaving
    cost = leaving[steps.piece, home] + coming[steps.piece, steps.to]
    back = leaving[steps.other, steps.to] + coming[steps.other, home]
    cost = cost + np.where(steps.other >= 0, back, 0.0)
    unchanged = one.person[home] == one.person[steps.to]
    swaps: Floats = np.where(unchanged, 0.0, cost)
    return swaps


def _away_cost(one: OneTrip, steps: Steps, home: Ints, prices: Prices) -> Floats:
    """What the step makes more of things away from their keepers."""
    away = one.away
    more = away[steps.piece, steps.to] - away[steps.piece, home]
    back = away[steps.other, home] - away[steps.other, steps.to]
    cost: Floats = prices.broken * (more + np.where(steps.other >= 0, back, 0.0))
    return cost


def _row_cost(one: OneTrip, steps: Steps, home: Ints, prices: Prices) -> Floats:
    """What the step makes more of rows above what they may hold."""
    load = one.load
    mass, volume = steps.difference(load.mass), steps.difference(load.volume)
    here, there = load.rows_of[home], load.rows_of[steps.to]
    same = here[:, :, None] == there[:, None, :]
    cost = np.zeros(len(home))
    for rows, shared, sign in ((here, same.any(axis=2), -1), (there, same.any(axis=1), 1)):
        more = sign * np.where(load.of_mass[rows], mass[:, None], volume[:, None])
        more = np.where(shared | (rows == len(load.load) - 1), 0, more)
        over = load.load[rows] - one.most[rows]
        grown = np.maximum(over + more, 0) - np.maximum(over, 0)
        cost += (prices.over * grown / np.maximum(one.most[rows], 1)).sum(axis=1)
    return cost


def _spread_cost(one: OneTrip, steps: Steps, home: Ints, prices: Prices) -> Floats:
    cost = np.zeros(len(home))
    for row in range(len(one.load.most)):
        more, over = (
            steps.difference(one.load.member[row]),
            one.load.counted[row] - one.load.most[row],
        )
        for carriers, sign in ((steps.to, 1), (home, -1)):
            grown = np.maximum(over[carriers] + sign * more, 0) - np.maximum(over[carriers], 0)
            cost += prices.spread * grown
    return cost


def _mixed_cost(one: OneTrip, steps: Steps, home: Ints, prices: Prices) -> Floats:
    cost, kinds = np.zeros(len(home)), one.kinds_in
    more = np.stack([steps.difference(one.kinds[row]) for row in range(2)])
    for carriers, sign in ((steps.to, 1), (home, -1)):
        now = kinds[:, carriers]
        cost += mixed_cost(now + sign * more, prices) - mixed_cost(now, prices)
    return cost
