"""A question in whole numbers for CP-SAT: columns with costs, and rows that sums must keep.

Columns begin at values that keep every row, so an answer is never worse than what is there.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from ortools.sat.python import cp_model

from solver.model.run import Run

Term = tuple[int, int]
"""A column and its factor."""

_LINEARIZATION = 2
"""How much of a question CP-SAT also gives to its linear program: all of it."""


@dataclass(frozen=True, slots=True)
class Row:
    """`lower` ≤ Σ factor × column ≤ `upper`, unless a column is 1; no `lower` is none."""

    terms: tuple[Term, ...]
    upper: int
    lower: int | None = None
    unless: int | None = None


@dataclass(slots=True)
class Question:
    """Columns from 0 to `most`, each with what a unit of it costs and where it starts."""

    most: list[int] = field(default_factory=list)
    cost: list[int] = field(default_factory=list)
    start: list[int] = field(default_factory=list)
    rows: list[Row] = field(default_factory=list)

    def column(self, most: int, *, cost: int = 0, start: int = 0) -> int:
        """A new column; gives its number."""
        self.most.append(most)
        self.cost.append(cost)
        self.start.append(start)
        return len(self.most) - 1

    def row(
        self,
        terms: Iterable[Term],
        upper: int,
        *,
        lower: int | None = None,
        unless: int | None = None,
    ) -> None:
        """A new row."""
        self.rows.append(Row(tuple(terms), upper, lower, unless))


def answered(question: Question, run: Run) -> tuple[Sequence[int] | None, float]:
    """The best values of the columns that CP-SAT found, and the deterministic time it took.

    None where it found nothing, or nothing costs anything.
    """
    costly = [column for column, cost in enumerate(question.cost) if cost]
    if not any(question.start[column] for column in costly):
        return None, 0.0
    model = cp_model.CpModel()
    columns = [model.new_int_var(0, most, "") for most in question.most]
    for column, start in zip(columns, question.start, strict=True):
        model.add_hint(column, start)
    for row in question.rows:
        total = cp_model.LinearExpr.weighted_sum(
            [columns[column] for column, _ in row.terms], [factor for _, factor in row.terms]
        )
        if row.lower is not None:
            model.add(total >= row.lower)
        kept = model.add(total <= row.upper)
        if row.unless is not None:
            kept.only_enforce_if(~columns[row.unless])
    model.minimize(
        cp_model.LinearExpr.weighted_sum(
            [columns[column] for column in costly], [question.cost[column] for column in costly]
        )
    )
    solver = run.solver()
    solver.parameters.linearization_level = _LINEARIZATION
    found = solver.solve(model) in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    values = [solver.value(column) for column in columns] if found else None
    return values, solver.deterministic_time
