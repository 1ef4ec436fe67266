"""Repair: moves and swaps within a trip until fewer of its soft constraints are violated.

Violated constraints are taken one after the other, the one that lacks least first. A move is
made where fewer constraints are violated after it or, the same number being violated, where
less mass is too much. No row of the trip is broken by it, and no load fraction passes the
trip's limit. All moves that touch a constraint are weighed at once as arrays; exchanges are tried
only where no move helps.
"""

from __future__ import annotations

from collections.abc import Sequence

from solver.model.goals.repair_moves import best_move, best_swap, read_pairs
from solver.model.goals.soft_constraint import SoftConstraint
from solver.model.goals.violations import ONE_VIOLATED, put, read_violations
from solver.model.packing.trip_load import TripLoad
from solver.model.work import Work

_STEP = 10_000
"""What each step costs beside its pieces times carriers, in the same measure [1]."""


def repair(
    load: TripLoad,
    of_trip: Sequence[SoftConstraint],
    *,
    limit: int,
    enough: int = 0,
    most_moves: int = 100,
    work: Work | None = None,
) -> int:
    """Move and swap until at most `enough` constraints are violated or nothing helps; the number.

    No load fraction ends above the limit [1/10,000], which the loads must keep to begin with.
    `work` counts the steps and may end them. Moves that in the end did not bring the number down
    are taken back.
    """
    if not of_trip:
        return 0
    work = work or Work()
    violations = read_violations(load, of_trip)
    pairs = read_pairs(load, violations, limit)
    cost = float(violations.costs(violations.value))
    fewest, since = int(cost // ONE_VIOLATED), []
    given_up: set[int] = set()
    for _ in range(most_moves):
        waiting = [constraint for constraint in violations.violated() if constraint not in given_up]
        if fewest <= enough or not waiting or work.is_over():
            break
        work.spend(_STEP + load.able.size)
        touched = violations.touched(waiting[0])
        changes = best_move(load, violations, pairs, touched) or best_swap(
            load, violations, pairs, touched
        )
        if changes is None:
            given_up.add(waiting[0])
            continue
        for piece, carrier in changes:
            since.append((piece, int(load.where[piece])))
            put(load, violations, piece, carrier)
        cost = float(violations.costs(violations.value))
        if cost // ONE_VIOLATED < fewest:
            fewest, since = int(cost // ONE_VIOLATED), []
    for piece, carrier in reversed(since):
        put(load, violations, piece, carrier)
    return fewest
