"""Tests of which columns a proof without a solution leans on."""

from __future__ import annotations

import numpy as np

from solver.model.solvers.conflicting_columns import FeasibilityQuestions
from solver.model.solvers.highs_run import Effort
from solver.model.solvers.linear_rows import Writer


def test_only_the_columns_of_the_clash_are_blamed():
    """Of x ≥ 3, x ≤ 2 and an idle y, the columns that could let x's rows go are blamed, not y's."""
    writer = Writer()
    x, over, short, y, idle = (writer.column(10.0) for _ in range(5))
    writer.row([(x, 1.0), (short, 1.0)], lower=3.0)
    writer.row([(x, 1.0), (over, -1.0)], upper=2.0)
    writer.row([(y, 1.0), (idle, 1.0)], lower=1.0)
    program = writer.program()
    upper = program.upper.copy()
    upper[[over, short, idle]] = 0.0
    questions = FeasibilityQuestions(program)
    answer = questions.ask(program.lower, upper, Effort(5.0))
    assert answer.solvable is False
    assert answer.blamed is not None
    assert list(answer.blamed[[over, short, y, idle]]) == [True, True, False, False]
    upper[short] = 10.0
    assert questions.ask(program.lower, upper, Effort(5.0)).solvable is True
    upper[short] = 0.0
    assert questions.ask(program.lower, upper, Effort(5.0)).solvable is False


def test_columns_must_be_told_apart_by_their_bounds():
    """A clash of a column's own bounds with a row is blamed on that column."""
    writer = Writer()
    x = writer.column(1.0)
    writer.row([(x, 1.0)], upper=0.5)
    program = writer.program()
    answer = FeasibilityQuestions(program).ask(np.ones(1), program.upper, Effort(5.0))
    assert (answer.solvable, answer.blamed is not None and bool(answer.blamed[x])) == (False, True)
