"""A question in whole numbers for CP-SAT: columns with costs, and rows that sums must keep.

Columns begin at values that keep every row, so an answer is never worse than what is there.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from ortools.sat.python.cp_model_helper import CpModelProto

from solver.model.cp_sat import cp_model
from solver.model.run import Run

Term = tuple[int, int]
"""A column and its factor."""

_LINEARIZATION = 2
"""How much of a question CP-SAT also gives to its linear program: all of it."""

_NO_LOWER, _NO_UPPER = -(2**63), 2**63 - 1
"""What CP-SAT takes for a sum without a limit [1]."""


@dataclass(frozen=True, slots=True)
class Row:
    """`lower` ≤ Σ factor × column ≤ `upper`, unless a column is 1; no `lower` is none."""

    columns: Sequence[int]
    factors: Sequence[int]
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

    def columns(self, most: Sequence[int], start: Sequence[int]) -> int:
        """New columns that cost nothing, one after the other; gives the number of the first."""
        self.most.extend(most)
        self.cost.extend([0] * len(most))
        self.start.extend(start)
        return len(self.most) - len(most)

    def row(
        self,
        terms: Iterable[Term],
        upper: int,
        *,
        lower: int | None = None,
        unless: int | None = None,
    ) -> None:
        """A new row."""
        columns, factors = [], []
        for column, factor in terms:
            columns.append(column)
            factors.append(factor)
        self.sums(columns, factors, upper, lower=lower, unless=unless)

    def sums(
        self,
        columns: Sequence[int],
        factors: Sequence[int],
        upper: int,
        *,
        lower: int | None = None,
        unless: int | None = None,
    ) -> None:
        """A new row whose columns and factors are there already."""
        self.rows.append(Row(columns, factors, upper, lower, unless))


@dataclass(frozen=True, slots=True)
class Answer:
    """The best values that CP-SAT found, None without any, and the deterministic time it took [s].

    `proven` says that there are no better ones.
    """

    values: Sequence[int] | None
    took: float
    proven: bool


def answered(question: Question, run: Run) -> Answer:
    """What CP-SAT finds; where nothing costs anything it is not asked."""
    if not any(start for start, cost in zip(question.start, question.cost, strict=True) if cost):
        return Answer(None, 0.0, proven=True)
    model = written(question)
    solver = run.solver()
    solver.parameters.linearization_level = _LINEARIZATION
    status = solver.solve(model)
    found = status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    values = list(solver.response_proto.solution) if found else None
    return Answer(values, solver.deterministic_time, proven=status == cp_model.OPTIMAL)


def written(question: Question) -> cp_model.CpModel:
    """The question as CP-SAT takes it.

    It goes straight into the message that the solver reads: a third of the time of expressions.
    """
    model = cp_model.CpModel()
    proto = model.proto
    variable = proto.variables.add
    for most in question.most:
        variable().domain.extend((0, most))
    for row in question.rows:
        if row.lower is not None:
            # Two rows, not one: found as many or fewer swaps on all examples.
            _write_row(proto, row, row.lower, _NO_UPPER)
        _write_row(proto, row, _NO_LOWER, row.upper)
    proto.solution_hint.vars.extend(range(len(question.start)))
    proto.solution_hint.values.extend(question.start)
    costly = [column for column, cost in enumerate(question.cost) if cost]
    proto.objective.vars.extend(costly)
    proto.objective.coeffs.extend([question.cost[column] for column in costly])
    return model


def _write_row(proto: CpModelProto, row: Row, lower: int, upper: int) -> None:
    constraint = proto.constraints.add()
    if row.unless is not None:
        # A literal below 0 stands for a column that is 0.
        constraint.enforcement_literal.append(-row.unless - 1)
    constraint.linear.vars.extend(row.columns)
    constraint.linear.coeffs.extend(row.factors)
    constraint.linear.domain.extend((lower, upper))
