"""The best move and the best exchange that repairs a soft constraint, weighed as arrays."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from solver.model.goals.pair_costs import PairParts, read_pair_parts
from solver.model.goals.violations import Violations
from solver.model.packing.trip_load import Bools, Floats, Ints, TripLoad
from solver.quantities import FRACTION_GRID

_BETTER = 1e-6
"""By how much a step must cost less, so that rounding cannot make a repair go round [1]."""

Changes = list[tuple[int, int]]
"""The pieces that go, each with its new carrier."""


@dataclass(frozen=True, slots=True)
class Pairs:
    """What is the same for each pair of carriers whatever the loads are.

    `most` (R + 1,) is what each row may hold [g or mL]. `by_mass` and `by_volume` (C, C, rows of a
    carrier) say which rows of the carrier that takes, the second, the one that gives has no part
    in. `parts` are the inequalities that change.
    """

    most: Ints
    by_mass: Bools
    by_volume: Bools
    parts: PairParts

    def slack(self, load: TripLoad) -> tuple[Ints, Ints]:
        """How much each carrier can take from each other one (C, C): mass [g] and volume [mL]."""
        spare = (self.most - load.load)[load.rows_of]
        by_mass, by_volume = (
            np.where(kind, spare, 2**40).min(axis=2) for kind in (self.by_mass, self.by_volume)
        )
        return by_mass, by_volume


def read_pairs(load: TripLoad, violations: Violations, limit: int) -> Pairs:
    """The pairs of a trip on which no load fraction may pass a limit [1/10,000]."""
    up_to = np.minimum(load.cap, limit * load.cap // FRACTION_GRID)
    most: Ints = np.where(load.scale > 0, up_to, load.cap)
    rows = load.rows_of
    theirs = (rows[None, :, :, None] == rows[:, None, None, :]).any(axis=3)
    others = ~theirs & (rows < len(load.cap) - 1)
    of_mass = load.of_mass[rows]
    return Pairs(most, others & of_mass, others & ~of_mass, read_pair_parts(violations))


def _one_of_each(load: TripLoad) -> Ints:
    """A piece of each cargo in each carrier, of those that have a choice."""
    pieces = np.flatnonzero(load.has_choice)
    key = load.cargo[pieces] * len(load.carriers) + load.where[pieces]
    _, first = np.unique(key, return_index=True)
    chosen: Ints = pieces[np.sort(first)]
    return chosen


def best_move(
    load: TripLoad, violations: Violations, pairs: Pairs, touched: Bools
) -> Changes | None:
    """The best move of one piece to or from touched carriers, all of them at once."""
    pieces = _one_of_each(load)
    homes, carriers = load.where[pieces], np.arange(len(load.carriers))
    wanted = load.able[pieces] & (homes[:, None] != carriers)
    wanted &= touched[homes][:, None] | touched
    at, to = np.nonzero(wanted)
    piece = pieces[at]
    home, allowed = load.where[piece], np.ones(len(piece), dtype=bool)
    for amount, spare in zip((load.mass, load.volume), pairs.slack(load), strict=True):
        allowed &= (amount[piece] <= spare[home, to]) | (amount[piece] == 0)
    for row in range(len(load.most)):
        more = load.member[row, piece]
        allowed &= (more == 0) | (load.counted[row, to] + more <= load.most[row])
    piece, to = piece[allowed], to[allowed]
    home = load.where[piece]
    costs = pairs.parts.costs(
        violations, home, to, load.mass[piece], violations.is_equipment[piece]
    )
    best = _best(costs)
    return None if best is None else [(int(piece[best]), int(to[best]))]


def best_swap(
    load: TripLoad, violations: Violations, pairs: Pairs, touched: Bools
) -> Changes | None:
    """The best exchange of a piece of touched carriers with another's, all of them at once."""
    others = _one_of_each(load)
    pieces = others[touched[load.where[others]]]
    allowed = load.where[pieces][:, None] != load.where[others]
    allowed &= load.able[pieces][:, load.where[others]]
    allowed &= load.able[others][:, load.where[pieces]].T
    at, to = np.nonzero(allowed)
    one, other = pieces[at], others[to]
    fits = _fits(load, pairs, one, other)
    one, other = one[fits], other[fits]
    costs = pairs.parts.costs(
        violations,
        load.where[one],
        load.where[other],
        load.mass[one] - load.mass[other],
        violations.is_equipment[one] - violations.is_equipment[other],
    )
    best = _best(costs)
    if best is None:
        return None
    piece, partner = int(one[best]), int(other[best])
    return [(piece, int(load.where[partner])), (partner, int(load.where[piece]))]


def _fits(load: TripLoad, pairs: Pairs, one: Ints, other: Ints) -> Bools:
    """Which exchanges break no row (K,)."""
    home, there = load.where[one], load.where[other]
    fits = np.ones(len(one), dtype=bool)
    for amount, spare in zip((load.mass, load.volume), pairs.slack(load), strict=True):
        more = amount[one] - amount[other]
        fits &= (more <= 0) | (more <= spare[home, there])
        fits &= (more >= 0) | (-more <= spare[there, home])
    for row in range(len(load.most)):
        more = load.member[row, one] - load.member[row, other]
        held, most = load.counted[row], load.most[row]
        fits &= (more <= 0) | (held[there] + more <= most)
        fits &= (more >= 0) | (held[home] - more <= most)
    return fits


def _best(costs: Floats) -> int | None:
    """The cheapest of some steps, None where none costs less than none."""
    if not len(costs):
        return None
    best = int(costs.argmin())
    return best if costs[best] < -_BETTER else None
