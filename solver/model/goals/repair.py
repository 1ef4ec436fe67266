"""Repair: moves and swaps within a trip until fewer of its soft constraints are violated.

Violated constraints are taken one after the other, the one that lacks least first. A move is
made where fewer constraints are violated after it or, the same number being violated, where
less mass is too much. No row of the trip is broken by it, and no load fraction passes the
trip's limit. All moves that touch a constraint are weighed at once as arrays; swaps are tried
only where no move helps.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

from solver.model.goals.repair_moves import best_move, best_swap, pair_slack
from solver.model.goals.soft_constraint import SoftConstraint
from solver.model.goals.violations import ONE_VIOLATED, put, read_violations
from solver.model.packing.trip_load import Bools, Ints, TripLoad
from solver.quantities import FRACTION_GRID


def _never() -> bool:
    return False


def repair(
    load: TripLoad,
    of_trip: Sequence[SoftConstraint],
    *,
    limit: int,
    enough: int = 0,
    most_moves: int = 100,
    is_over: Callable[[], bool] = _never,
) -> int:
    """Move and swap until at most `enough` constraints are violated or nothing helps; the number.

    No load fraction ends above the limit [1/10,000], which the loads must keep to begin with.
    Moves that in the end did not bring the number down are taken back.
    """
    if not of_trip:
        return 0
    violations = read_violations(load, of_trip)
    belongs, most = _rows_within(load, limit)
    cost = float(violations.costs(violations.value))
    fewest, since = int(cost // ONE_VIOLATED), []
    given_up: set[int] = set()
    for _ in range(most_moves):
        waiting = [constraint for constraint in violations.violated() if constraint not in given_up]
        if fewest <= enough or not waiting or is_over():
            break
        slack, touched = pair_slack(load, belongs, most), violations.touched(waiting[0])
        better = best_move(load, violations, slack, touched, cost) or best_swap(
            load, violations, slack, touched, cost
        )
        if better is None:
            given_up.add(waiting[0])
            continue
        cost, changes = better
        for piece, carrier in changes:
            since.append((piece, int(load.where[piece])))
            put(load, violations, piece, carrier)
        if cost // ONE_VIOLATED < fewest:
            fewest, since = int(cost // ONE_VIOLATED), []
    for piece, carrier in reversed(since):
        put(load, violations, piece, carrier)
    return fewest


def _rows_within(load: TripLoad, limit: int) -> tuple[Bools, Ints]:
    """Which rows each carrier belongs to (C, R + 1), and how much each row may hold (R + 1,)."""
    up_to = np.minimum(load.cap, limit * load.cap // FRACTION_GRID)
    most: Ints = np.where(load.scale > 0, up_to, load.cap)
    belongs = np.zeros((len(load.carriers), len(load.cap)), dtype=bool)
    np.put_along_axis(belongs, load.rows_of, values=True, axis=1)
    belongs[:, -1] = False
    return belongs, most
