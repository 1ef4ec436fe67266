"""Moves on one trip that are kept only if all costs less after them."""

from __future__ import annotations

from collections.abc import Sequence

from solver.model.goals.steady.ask_preferences import BROKEN
from solver.model.goals.steady.beside import Beside
from solver.model.goals.steady.broken import count_broken
from solver.model.goals.steady.expedition import OneTrip

Move = tuple[Sequence[int], int, int]
"""Some pieces, the carrier that they are in, and the one that they go to."""


def keep_if_better(one: OneTrip, sides: Beside, moves: Sequence[Move]) -> bool:
    """Make moves, and undo them unless swaps and broken preferences cost less; whether they stay.

    The caller sees to load rows; spread rows are looked at here.
    """
    before = _cost(one, sides)
    _make(one, sides, moves)
    if (one.load.counted <= one.load.most[:, None]).all() and _cost(one, sides) < before:
        return True
    _make(one, sides, [(pieces, to, since) for pieces, since, to in moves])
    return False


def _make(one: OneTrip, sides: Beside, moves: Sequence[Move]) -> None:
    for pieces, since, to in moves:
        for piece in pieces:
            sides.put(piece, int(one.person[since]), int(one.person[to]))
            one.put(piece, to)


def _cost(one: OneTrip, sides: Beside) -> int:
    return sides.swaps() + BROKEN * count_broken(one)
