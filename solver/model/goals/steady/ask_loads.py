"""One trip's part of a question: who may have its free pieces, under all rows of the trip."""

from __future__ import annotations

from collections.abc import Set as AbstractSet
from dataclasses import dataclass

import numpy as np

from solver.model.goals.steady.expedition import OneTrip
from solver.model.goals.steady.question import Question, Term
from solver.model.packing.trip_load import Bools, Ints


@dataclass(slots=True)
class Asked:
    """What is asked of a trip.

    `pieces` are the free ones by cargo, `columns` say how many of a cargo a carrier gets. The
    rest is the trip without free pieces: what rows (R,) and spread rows (S, C) still hold, what
    the inequalities come to (N,), and the pieces of fuel and food in each carrier (2, C).
    """

    one: OneTrip
    free: Bools
    pieces: dict[int, Ints]
    columns: dict[tuple[int, int], int]
    room: Ints
    spread: Ints
    value: Ints
    kinds: Ints

    def terms(self, amount: Ints, carriers: AbstractSet[int]) -> list[Term]:
        """Σ amount of a piece (P,) × how many of it go into some carriers."""
        return [
            (column, int(amount[self.pieces[cargo][0]]))
            for (cargo, carrier), column in self.columns.items()
            if carrier in carriers and amount[self.pieces[cargo][0]]
        ]

    def most(self, amount: Ints) -> int:
        """What all free pieces add to a sum at most, wherever they go."""
        return sum(len(its) * max(0, int(amount[its[0]])) for its in self.pieces.values())


def ask_loads(
    question: Question, one: OneTrip, free: Bools, people: AbstractSet[int] | None
) -> Asked:
    """Columns for the free pieces (P,) of a trip, among some people only, and the trip's rows."""
    asked = _without(one, free)
    load = one.load
    allowed = np.isin(one.person, sorted(people)) if people is not None else True
    for cargo, its in asked.pieces.items():
        now = np.bincount(load.where[its], minlength=len(load.carriers))
        able = np.flatnonzero(load.able[its[0]] & allowed).tolist()
        for carrier in able:
            column = question.column(len(its), start=int(now[carrier]))
            asked.columns[cargo, carrier] = column
        mine = [(asked.columns[cargo, carrier], 1) for carrier in able]
        question.row(mine, len(its), lower=len(its))
    _ask_rows(question, asked)
    return asked


def _without(one: OneTrip, free: Bools) -> Asked:
    """A trip as it is without its free pieces."""
    load, violations = one.load, one.violations
    room, spread = one.most - load.load, load.most[:, None] - load.counted
    value, kinds = violations.value.copy(), one.kinds_in.copy()
    pieces: dict[int, list[int]] = {}
    for piece in np.flatnonzero(free).tolist():
        pieces.setdefault(int(load.cargo[piece]), []).append(piece)
        home = int(load.where[piece])
        room = room + one.amount[piece] * one.rows[home]
        spread[:, home] += load.member[:, piece]
        kinds[:, home] -= one.kinds[:, piece]
        value -= violations.by_mass[:, home] * load.mass[piece]
        value -= violations.by_equipment[:, home] * violations.is_equipment[piece]
    by_cargo = {cargo: np.array(its, dtype=np.int64) for cargo, its in pieces.items()}
    return Asked(one, free, by_cargo, {}, room, spread, value, kinds)


def _ask_rows(question: Question, asked: Asked) -> None:
    """Load rows and spread rows, as far as the free pieces could break them."""
    one = asked.one
    for row in range(len(one.most) - 1):
        amount = one.amount[:, row]
        if asked.most(amount) > asked.room[row]:
            carriers = set(np.flatnonzero(one.rows[:, row]).tolist())
            question.row(asked.terms(amount, carriers), int(asked.room[row]))
    for row, amount in enumerate(one.load.member):
        for carrier in range(len(one.load.carriers)):
            if asked.most(amount) > asked.spread[row, carrier]:
                terms = asked.terms(amount, {carrier})
                question.row(terms, int(asked.spread[row, carrier]))
