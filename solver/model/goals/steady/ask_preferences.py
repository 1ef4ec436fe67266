"""A trip's preferences in a question: each that is not met costs as much as many swaps."""

from __future__ import annotations

import numpy as np

from solver.model.goals.steady.ask_loads import Asked
from solver.model.goals.steady.question import Question

BROKEN = 20
"""What a preference that is not met costs, in weighted swaps [1]."""


def ask_preferences(question: Question, asked: Asked) -> None:
    """Everything that the request prefers on a trip."""
    if len(asked.of):
        _ask_inequalities(question, asked)
        _ask_apart(question, asked)
        _ask_keepers(question, asked)


def _ask_inequalities(question: Question, asked: Asked) -> None:
    """Soft constraints: a column for each says whether it is broken."""
    one, violations, broken = asked.one, asked.one.violations, {}
    if not len(violations.value):
        return
    now = (violations.value > 0).astype(np.float64) @ violations.of_constraint > 0
    factors = violations.by_mass[:, asked.into] * one.load.mass[asked.first][asked.of]
    factors += (
        violations.by_equipment[:, asked.into] * violations.is_equipment[asked.first][asked.of]
    )
    # What an inequality comes to at most: each piece where it counts most, or not at all.
    most = np.maximum(np.maximum.reduceat(factors, asked.begins, axis=1), 0) @ asked.count
    constraints = violations.of_constraint.argmax(axis=1)
    is_asked = (factors != 0).any(axis=1) & (asked.value + most > 0)
    for part in np.flatnonzero(is_asked).tolist():
        constraint = int(constraints[part])
        if constraint not in broken:
            start = int(now[constraint])
            broken[constraint] = question.column(1, cost=BROKEN, start=start)
        at = np.flatnonzero(factors[part])
        question.sums(
            (at + asked.offset).tolist(),
            factors[part, at].tolist(),
            -int(asked.value[part]),
            unless=broken[constraint],
        )


def _ask_apart(question: Question, asked: Asked) -> None:
    """Fuel apart from food: a column for each carrier says whether it holds both."""
    one = asked.one
    of_kind = [
        (asked.into[at := np.flatnonzero(one.kinds[kind][asked.first][asked.of])], at)
        for kind in (0, 1)
    ]
    for carrier in range(len(one.load.carriers)):
        free = [(at[into == carrier] + asked.offset).tolist() for into, at in of_kind]
        there = asked.kinds[:, carrier] > 0
        if not any(free) or not all(its or has for its, has in zip(free, there, strict=True)):
            continue
        both = question.column(1, cost=BROKEN, start=int(one.kinds_in[:, carrier].all()))
        terms = [(both, -1)]
        for kind in np.flatnonzero(~there).tolist():
            start = int(one.kinds_in[kind, carrier] > 0)
            terms.append((_any_of(question, free[kind], start), 1))
        question.row(terms, 1 - int(there.sum()))


def _any_of(question: Question, columns: list[int], start: int) -> int:
    """A column that is 1 where one of the columns is not 0."""
    some = question.column(1, start=start)
    for column in columns:
        question.sums((column, some), (1, -question.most[column]), 0)
    return some


def _ask_keepers(question: Question, asked: Asked) -> None:
    """Each piece away from its keeper costs as a preference."""
    away = asked.one.away[asked.first[asked.of], asked.into]
    for column in np.flatnonzero(away).tolist():
        question.cost[asked.offset + column] += BROKEN
