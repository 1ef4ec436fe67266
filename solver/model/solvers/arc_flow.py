"""Pieces packed into bins that are all alike, as a flow through the capacity (arc flow).

Where many people with the same cap share out pieces and nothing but mass binds, search by
people drowns in plans that differ only in who is who. Here a bin is a path from 0 to the
capacity: an arc i → i + w is a piece of mass w put in a bin that held i, and as many paths as
there are bins must together take every piece. Who carries which path is settled afterwards.

J. M. Valério de Carvalho, "Exact solution of bin-packing problems using column generation and
branch-and-bound", Annals of Operations Research 86 (1999): the model, with arcs of heavier
pieces before those of lighter ones.
"""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from solver.model.solvers.highs_run import Effort
from solver.model.solvers.linear_program import least_whole
from solver.model.solvers.linear_rows import Program, Term, Writer

Arc = tuple[int, int]
"""What a bin held before and after a piece; a piece's mass is the difference."""

MOST_ARCS = 40_000
"""More than this would take longer than search by people."""


@dataclass(frozen=True, slots=True)
class BinPacking:
    """`bins` lists the pieces of each bin by index, None where none was found.

    `infeasible` says that no packing exists at all.
    """

    bins: tuple[tuple[int, ...], ...] | None
    infeasible: bool


def pack_identical_bins(
    sizes: Sequence[int], *, bins: int, capacity: int, effort: Effort, most_arcs: int = MOST_ARCS
) -> BinPacking:
    """Pack pieces of these sizes into so many bins of one capacity.

    Nothing is known (no bins, not infeasible) when time runs out or the arcs are too many.
    """
    weighing = Counter(size for size in sizes if size > 0)
    if max(weighing, default=0) > capacity or sum(sizes) > bins * capacity:
        return BinPacking(None, infeasible=True)
    arcs = _arcs(weighing, capacity, most_arcs)
    if arcs is None:
        return BinPacking(None, infeasible=False)
    program, flow = _program(weighing, arcs, bins, capacity)
    whole = least_whole(
        program,
        np.zeros(program.columns),
        effort,
        lower=program.lower,
        upper=program.upper,
        gap=math.inf,
    )
    if whole.infeasible:
        return BinPacking(None, infeasible=True)
    if whole.values is None:
        return BinPacking(None, infeasible=False)
    used = {arc: round(whole.values[column]) for arc, column in flow.items()}
    return BinPacking(_paths(sizes, used, bins), infeasible=False)


def _arcs(weighing: Counter[int], capacity: int, most: int) -> list[Arc] | None:
    """Every arc that a bin filled heaviest first can take; None when they are too many."""
    reached = {0}
    arcs: set[Arc] = set()
    for size in sorted(weighing, reverse=True):
        ends: set[int] = set()
        for begin in reached:
            for number in range(weighing[size]):
                after = begin + (number + 1) * size
                if after > capacity:
                    break
                arcs.add((after - size, after))
                ends.add(after)
        reached |= ends
        if len(arcs) > most:
            return None
    return sorted(arcs)


def _program(
    weighing: Counter[int], arcs: list[Arc], bins: int, capacity: int
) -> tuple[Program, dict[Arc, int]]:
    """Columns for the flow of the pieces, and rows that keep the flow and take every piece."""
    writer = Writer()
    flow = {
        (begin, end): writer.column(float(weighing[end - begin]), whole=True) for begin, end in arcs
    }
    balance: dict[int, list[Term]] = defaultdict(list)
    taken: dict[int, list[Term]] = defaultdict(list)
    for (begin, end), column in flow.items():
        balance[begin].append((column, -1.0))
        balance[end].append((column, 1.0))
        taken[end - begin].append((column, 1.0))
    # What stays empty in a bin is the way on from one reached level to the next.
    levels = sorted({0, capacity, *balance})
    for begin, end in pairwise(levels):
        empty = writer.column(float(bins))
        balance[begin].append((empty, -1.0))
        balance[end].append((empty, 1.0))
    for level in levels[1:-1]:
        writer.row(balance[level], lower=0.0, upper=0.0)
    writer.row(balance[0], lower=float(-bins), upper=float(-bins))
    for size, count in weighing.items():
        writer.row(taken[size], lower=float(count), upper=float(count))
    return writer.program(), flow


def _paths(sizes: Sequence[int], used: dict[Arc, int], bins: int) -> tuple[tuple[int, ...], ...]:
    """Take the flow apart into one path for each bin; pieces of no mass go in the first."""
    left: dict[int, list[int]] = defaultdict(list)
    for index, size in enumerate(sizes):
        left[size].append(index)
    leaving: dict[int, list[int]] = defaultdict(list)
    for (begin, end), count in used.items():
        leaving[begin] += [end] * count
    # A bin that goes on from a level without a piece is found at the next level it leaves.
    waiting: list[tuple[int, list[int]]] = [(0, []) for _ in range(bins)]
    for level in sorted(leaving):
        for end in leaving[level]:
            at = next(k for k, (held, _) in enumerate(waiting) if held <= level)
            _, pieces = waiting.pop(at)
            waiting.append((end, [*pieces, left[end - level].pop()]))
    full = [pieces for _, pieces in waiting]
    full[0] += left.get(0, [])
    return tuple(tuple(sorted(pieces)) for pieces in full)
