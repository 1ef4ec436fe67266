"""A trip's preferences in a question: each that is not met costs as much as many swaps."""

from __future__ import annotations

import numpy as np

from solver.model.goals.steady.ask_loads import Asked
from solver.model.goals.steady.question import Question, Term
from solver.model.packing.trip_load import Floats, Ints

BROKEN = 20
"""What a preference that is not met costs, in weighted swaps [1]."""


def ask_preferences(question: Question, asked: Asked) -> None:
    """Everything that the request prefers on a trip."""
    _ask_inequalities(question, asked)
    _ask_apart(question, asked)
    _ask_keepers(question, asked)


def _ask_inequalities(question: Question, asked: Asked) -> None:
    """Soft constraints: a column for each says whether it is broken."""
    violations, broken = asked.one.violations, {}
    if not len(violations.value):
        return
    now = (violations.value > 0).astype(np.float64) @ violations.of_constraint > 0
    for part, constraint in enumerate(violations.of_constraint.argmax(axis=1).tolist()):
        terms, most = _sum_of(asked, part)
        if not terms or most <= 0:
            continue
        if constraint not in broken:
            start = int(now[constraint])
            broken[constraint] = question.column(1, cost=BROKEN, start=start)
        question.row(terms, -int(asked.value[part]), unless=broken[constraint])


def _sum_of(asked: Asked, part: int) -> tuple[list[Term], int]:
    """An inequality's terms, and what it comes to at most."""
    one, violations = asked.one, asked.one.violations
    by_mass, by_equipment = violations.by_mass[part], violations.by_equipment[part]
    terms, most = [], dict.fromkeys(asked.pieces, 0)
    for (cargo, carrier), column in asked.columns.items():
        piece = asked.pieces[cargo][0]
        factor = by_mass[carrier] * one.load.mass[piece]
        factor += by_equipment[carrier] * violations.is_equipment[piece]
        if factor:
            terms.append((column, int(factor)))
            most[cargo] = max(most[cargo], int(factor))
    total = sum(len(its) * most[cargo] for cargo, its in asked.pieces.items())
    return terms, int(asked.value[part]) + total


def _ask_apart(question: Question, asked: Asked) -> None:
    """Fuel apart from food: a column for each carrier says whether it holds both."""
    one = asked.one
    for carrier in range(len(one.load.carriers)):
        free = [asked.terms(one.kinds[kind], {carrier}) for kind in (0, 1)]
        there = asked.kinds[:, carrier] > 0
        if not any(free) or not all(its or has for its, has in zip(free, there, strict=True)):
            continue
        both = question.column(1, cost=BROKEN, start=int(one.kinds_in[:, carrier].all()))
        terms = [(both, -1)]
        for kind in np.flatnonzero(~there).tolist():
            start = int(one.kinds_in[kind, carrier] > 0)
            terms.append((_any_of(question, free[kind], start), 1))
        question.row(terms, 1 - int(there.sum()))


def _any_of(question: Question, terms: list[Term], start: int) -> int:
    """A column that is 1 where one of the terms is not 0."""
    some = question.column(1, start=start)
    for column, _ in terms:
        question.row([(column, 1), (some, -question.most[column])], 0)
    return some


def _ask_keepers(question: Question, asked: Asked) -> None:
    """Each piece away from its keeper costs as a preference."""
    for (cargo, carrier), column in asked.columns.items():
        if _away(asked.one.away, asked.pieces[cargo], carrier):
            question.cost[column] += BROKEN


def _away(away: Floats, pieces: Ints, carrier: int) -> bool:
    return bool(away[pieces[0], carrier])
