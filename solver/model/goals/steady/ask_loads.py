"""One trip's part of a question: who may have its free pieces, under all rows of the trip."""

from __future__ import annotations

from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from solver.model.goals.steady.expedition import OneTrip
from solver.model.goals.steady.question import Question
from solver.model.packing.trip_load import Bools, Ints


@dataclass(slots=True)
class Asked:
    """What is asked of a trip: M columns, each how many of a cargo a carrier gets.

    The K cargoes with free pieces have the number `cargo` (K,), `count` (K,) free ones of which
    `first` (K,) is one, and each its columns from `begins` (K,) on, one after the other. A column
    is of a cargo `of` (M,), its place among the K, and `into` (M,) a carrier; the question's
    number of the first column is `offset`. `pieces` are the free ones by cargo.

    The rest is the trip without free pieces: what rows (R,) and spread rows (S, C) still hold,
    what the inequalities come to (N,), and the pieces of fuel and food in each carrier (2, C).
    """

    one: OneTrip
    free: Bools
    pieces: dict[int, Ints]
    cargo: Ints
    count: Ints
    first: Ints
    begins: Ints
    of: Ints
    into: Ints
    offset: int
    room: Ints
    spread: Ints
    value: Ints
    kinds: Ints

    def terms(self, amount: Ints, carriers: Bools) -> tuple[list[int], list[int]]:
        """Columns and factors of Σ amount of a piece (P,) × how many go into some carriers (C,)."""
        factors = amount[self.first][self.of]
        at = np.flatnonzero(carriers[self.into] & (factors != 0))
        return (at + self.offset).tolist(), factors[at].tolist()

    def most(self, amount: Ints) -> Ints:
        """What all free pieces add to sums at most, wherever they go: (P, ...) gives (...)."""
        total: Ints = self.count @ np.maximum(amount[self.first], 0)
        return total

    def by_cargo(self) -> dict[int, list[tuple[int, int]]]:
        """The columns of each cargo, each with the person who gets it."""
        people = self.one.person[self.into].tolist()
        found: dict[int, list[tuple[int, int]]] = {}
        cargoes = self.cargo[self.of].tolist()
        for column, (cargo, person) in enumerate(zip(cargoes, people, strict=True)):
            found.setdefault(cargo, []).append((self.offset + column, person))
        return found


def ask_loads(
    question: Question, one: OneTrip, free: Bools, people: AbstractSet[int] | None
) -> Asked:
    """Columns for the free pieces (P,) of a trip, among some people only, and the trip's rows."""
    load, pieces = one.load, np.flatnonzero(free)
    cargo, first, place, count = np.unique(
        load.cargo[pieces], return_index=True, return_inverse=True, return_counts=True
    )
    now = np.zeros((len(cargo), len(load.carriers)), dtype=np.int64)
    np.add.at(now, (place, load.where[pieces]), 1)
    allowed = np.isin(one.person, sorted(people)) if people is not None else True
    of, into = np.nonzero(load.able[pieces[first]] & allowed)
    order = np.argsort(place, kind="stable")
    its = np.split(pieces[order], np.cumsum(count)[:-1]) if len(count) else []
    asked = Asked(
        one=one,
        free=free,
        pieces=dict(zip(cargo.tolist(), its, strict=True)),
        cargo=cargo,
        count=count,
        first=pieces[first],
        begins=np.searchsorted(of, np.arange(len(cargo))),
        of=of,
        into=into,
        offset=question.columns(count[of].tolist(), now[of, into].tolist()),
        **_without(one, pieces),
    )
    bounds = [*asked.begins.tolist(), len(of)]
    for (begin, end), units in zip(pairwise(bounds), count.tolist(), strict=True):
        columns = range(asked.offset + begin, asked.offset + end)
        question.sums(columns, [1] * (end - begin), units, lower=units)
    _ask_rows(question, asked)
    return asked


def _without(one: OneTrip, pieces: Ints) -> dict[str, Ints]:
    """A trip's rows, spread rows, inequalities and kinds as they are without some pieces."""
    load, violations, homes = one.load, one.violations, one.load.where[pieces]
    spread, kinds = load.most[:, None] - load.counted, one.kinds_in.copy()
    for row in range(len(spread)):
        np.add.at(spread[row], homes, load.member[row, pieces])
    for kind in (0, 1):
        np.subtract.at(kinds[kind], homes, one.kinds[kind, pieces])
    by_mass = violations.by_mass[:, homes] @ load.mass[pieces]
    by_equipment = violations.by_equipment[:, homes] @ violations.is_equipment[pieces]
    return {
        "room": one.most - load.load + (one.amount[pieces] * one.rows[homes]).sum(axis=0),
        "spread": spread,
        "value": violations.value - by_mass - by_equipment,
        "kinds": kinds,
    }


def _ask_rows(question: Question, asked: Asked) -> None:
    """Load rows and spread rows, as far as the free pieces could break them."""
    one = asked.one
    for row in np.flatnonzero(asked.most(one.amount)[:-1] > asked.room[:-1]).tolist():
        columns, factors = asked.terms(one.amount[:, row], one.rows[:, row])
        question.sums(columns, factors, int(asked.room[row]))
    tight = asked.most(one.load.member.T)[:, None] > asked.spread
    carriers = np.arange(len(one.load.carriers))
    for row, carrier in np.argwhere(tight).tolist():
        columns, factors = asked.terms(one.load.member[row], carriers == carrier)
        question.sums(columns, factors, int(asked.spread[row, carrier]))
