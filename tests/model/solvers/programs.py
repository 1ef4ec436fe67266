"""Small whole-number programs from a seed, and their optimum by trying everything."""

from __future__ import annotations

from itertools import product
from random import Random

import numpy as np

from solver.model.solvers.linear_rows import Floats, Program, Writer

MOST = 3
"""The largest value of a column."""


def program_from(seed: int, *, columns: int = 5, rows: int = 4) -> tuple[Program, Floats]:
    """A program with whole columns from 0 to MOST, and costs; some have no solution."""
    chance = Random(f"program {seed}")
    writer = Writer()
    for _ in range(columns):
        writer.column(float(MOST), whole=True)
    for _ in range(rows):
        terms = [(c, chance.randint(-40, 90) / 10) for c in range(columns) if chance.random() < 0.8]
        if terms:
            writer.row(terms, lower=chance.randint(0, 160) / 10)
    return writer.program(), np.array([chance.randint(1, 99) / 7 for _ in range(columns)])


def matrix(program: Program) -> Floats:
    """The rows of a program in full (R, C)."""
    full = np.zeros((program.rows, program.columns))
    for row in range(program.rows):
        for at in range(program.start[row], program.start[row + 1]):
            full[row, program.index[at]] = program.value[at]
    return full


def least_by_trying(program: Program, costs: Floats) -> float | None:
    """The least cost of any whole values that keep the rows; None where there are none."""
    full = matrix(program)
    found = [
        float(costs @ values)
        for values in map(np.array, product(range(MOST + 1), repeat=program.columns))
        if (full @ values >= program.row_lower - 1e-9).all()
    ]
    return min(found, default=None)


def market_split(seed: int, *, rows: int = 5, columns: int = 40) -> tuple[Program, Floats]:
    """Sums of 0 and 1 that must come out even: no search settles it in minutes.

    G. Cornuéjols and M. Dawande, "A class of hard small 0-1 programs", INFORMS Journal on
    Computing 11 (1999), from memory, unverified.
    """
    chance = Random(f"market split {seed}")
    writer = Writer()
    chosen = [writer.column(1.0, whole=True) for _ in range(columns)]
    costs = []
    for _ in range(rows):
        weights = [chance.randint(0, 99) for _ in chosen]
        half = float(sum(weights) // 2)
        over, under = writer.column(1e4), writer.column(1e4)
        terms = [(c, float(w)) for c, w in zip(chosen, weights, strict=True) if w]
        writer.row([*terms, (over, -1.0), (under, 1.0)], lower=half, upper=half)
        costs += [1.0, 1.0]
    return writer.program(), np.array([0.0] * columns + costs)
