"""Which rows and things a proof by the relaxation leans on, few enough to look at one by one.

In the relaxation asked here nothing is settled and every row may be let go: each load row and
each row on what must be somewhere has a column by which it may be passed, held at 0. Things that
must ride do so because their column is held at all there are. To let a row or a thing go is to
free its columns. A deletion filter (J. W. Chinneck and E. W. Dravnieks, "Locating minimal
infeasible constraint sets in linear programs", ORSA J. Computing 3, 1991) frees one group after
the other as long as no solution comes, and each proof frees whatever it does not lean on.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, replace

import numpy as np

from solver.model.formulation.flow_row import FlowRowCache
from solver.model.formulation.frame import Frame
from solver.model.rows import LoadRow, Row
from solver.model.solvers.conflicting_columns import FeasibilityQuestions
from solver.model.solvers.linear_rows import Bools
from solver.model.solvers.relaxation_columns import Relaxation
from solver.model.solvers.relaxation_question import effort_of
from solver.model.solvers.relaxation_rows import build_relaxation
from solver.progress import Watch

_SECONDS = 10.0
"""Time for one question; each takes a small part of it [s]."""


@dataclass(frozen=True, slots=True)
class Blamed:
    """What is left: load rows, other rows, and the units of cargo that must ride."""

    caps: frozenset[LoadRow]
    rows: frozenset[Row]
    unit_ids: frozenset[str]


Group = tuple[str, Row | str]
"""A load row, another row or a unit, with what it is."""

Groups = dict[Group, list[int]]
"""The columns of each group."""


class BlameSearch:
    """The relaxation with everything held by its bounds, and what of it may still be blamed."""

    def __init__(self, frame: Frame, watch: Watch) -> None:
        self._watch = watch
        self._relaxation = build_relaxation(
            replace(frame, settled=frozenset(), cache=FlowRowCache()),
            with_excess=True,
            with_shortage=True,
        )
        self._groups = _groups(frame, self._relaxation)
        self._questions = FeasibilityQuestions(self._relaxation.program)

    def next_blamed(self, *, few: bool) -> Blamed | None:
        """What a proof that there is no plan needs; None where there is no proof any more.

        With `few` as little as can be. The caps that are blamed are let go, so that the next proof
        leans on others.
        """
        kept = self._proven(self._groups)
        if kept is None:
            return None
        for group in sorted(kept, key=_order):
            if few and group in kept and self._watch.left() > 0:
                fewer = {g: columns for g, columns in kept.items() if g != group}
                kept = self._proven(fewer) or kept
        self._groups = {
            group: columns
            for group, columns in self._groups.items()
            if group not in kept or group[0] != "cap"
        }
        rows = [name for _, name in kept if not isinstance(name, str)]
        return Blamed(
            frozenset(row for row in rows if isinstance(row, LoadRow)),
            frozenset(row for row in rows if not isinstance(row, LoadRow)),
            frozenset(name for _, name in kept if isinstance(name, str)),
        )

    def _proven(self, groups: Groups) -> Groups | None:
        """What is blamed of some groups, when all others are let go; None without a proof."""
        program = self._relaxation.program
        held: Bools = np.zeros(program.columns, dtype=bool)
        for columns in groups.values():
            held[columns] = True
        rides = np.zeros_like(held)
        rides[list(self._relaxation.rides.values())] = True
        lower, upper = program.lower.copy(), program.upper.copy()
        lower[held & rides] = upper[held & rides]
        upper[held & ~rides] = 0.0
        answer = self._questions.ask(lower, upper, effort_of(self._relaxation, _SECONDS))
        if answer.solvable is not False or answer.blamed is None:
            return None
        blamed = answer.blamed
        return {group: columns for group, columns in groups.items() if blamed[columns].any()}


def _order(group: Group) -> int:
    """What is tried first, and so tends to go: what people can least act on."""
    return ("row", "unit", "cap").index(group[0])


def _groups(frame: Frame, relaxation: Relaxation) -> Groups:
    """The columns of each group."""
    groups: Groups = defaultdict(list)
    for row, column in relaxation.excess or ():
        groups["cap", row].append(column)
    for other, column in (relaxation.short or {}).items():
        groups["row", other].append(column)
    for cargo, trip in sorted(frame.settled):
        column = relaxation.rides.get((cargo, trip), -1)
        if column >= 0:
            groups["unit", frame.world.cargo[cargo].unit_id].append(column)
    return dict(groups)
