"""Bounds that hold in spite of floating point, from any duals that a solver ends with.

For min c·x with `row_lower` ≤ A·x ≤ `row_upper` and l ≤ x ≤ u, any row duals y with the signs
that their rows allow prove c·x ≥ Σ yᵢ·(the side of row i that yᵢ leans on) + Σ min(rⱼ·lⱼ, rⱼ·uⱼ),
where r = c − Aᵀ·y. Duals that are slightly off only make the bound slightly lower, so nothing
of the solver's tolerances has to be believed. What the sums themselves may lose to rounding is
bounded by γₙ = n·ε and taken off.

A. Neumaier and O. Shcherbina, "Safe bounds in linear and mixed-integer linear programming",
Mathematical Programming 99 (2004): the bound; N. J. Higham, "Accuracy and Stability of Numerical
Algorithms", SIAM, 2nd ed. 2002, section 3.1: γₙ. Both from memory, unverified; the tests hold the
bound against exact fractions.
"""

from __future__ import annotations

import numpy as np

from solver.model.solvers.linear_rows import Floats, Program

_EPSILON = 2.0**-52
"""Twice the unit roundoff: the factors of a program are rounded themselves [1]."""

_MARGIN = 8
"""Roundings of one entry beyond those of the sum that it is in [1]."""


def safe_bound(
    program: Program, costs: Floats, duals: Floats, lower: Floats, upper: Floats
) -> float:
    """A number that min `costs`·x cannot be below, −∞ where these duals prove nothing.

    `costs`, `lower` and `upper` are (C,), `duals` (R,).
    """
    y = np.where(np.isneginf(program.row_lower), np.minimum(duals, 0.0), duals)
    y = np.where(np.isposinf(program.row_upper), np.maximum(y, 0.0), y)
    y = np.where(np.isfinite(y), y, 0.0)
    lengths = np.diff(program.start)
    entries = program.value * np.repeat(y, lengths)
    n = program.columns
    reduced: Floats = costs - np.bincount(program.index, weights=entries, minlength=n)
    size = np.abs(costs) + np.bincount(program.index, weights=np.abs(entries), minlength=n)
    many = np.bincount(program.index, minlength=n) + _MARGIN
    off: Floats = np.asarray(many * _EPSILON * size, dtype=np.float64)
    # Where a column is in no row with a dual, its reduced cost is its cost, without any error.
    off[size == np.abs(costs)] = 0.0
    terms = np.concatenate([_row_terms(program, y), _least(reduced, off, lower, upper)])
    total = float(terms.sum())
    if not np.isfinite(total):
        return -np.inf
    return total - float((len(terms) + _MARGIN) * _EPSILON * np.abs(terms).sum())


def _row_terms(program: Program, y: Floats) -> Floats:
    """What each row adds (R,): its dual times the side that the dual leans on."""
    side = np.where(y > 0, program.row_lower, program.row_upper)
    terms: Floats = np.where(y == 0, 0.0, y * np.where(y == 0, 0.0, side))
    return terms


def _least(reduced: Floats, off: Floats, lower: Floats, upper: Floats) -> Floats:
    """The least that each column can add (C,), its reduced cost known up to `off`.

    What a column adds at best is concave in its reduced cost, so the ends of the interval decide.
    """
    least: Floats = np.minimum(
        _at_best(reduced - off, lower, upper), _at_best(reduced + off, lower, upper)
    )
    return least


def _at_best(cost: Floats, lower: Floats, upper: Floats) -> Floats:
    """The least of cost times value over each column's interval (C,)."""
    end = np.where(cost > 0, lower, upper)
    best: Floats = np.where(cost == 0, 0.0, cost * np.where(cost == 0, 0.0, end))
    return best
