"""Linear programs as arrays: bounds that hold, relax and fix against trying everything, stops."""

from __future__ import annotations

import math
import time
from fractions import Fraction
from random import Random

import numpy as np
import pytest

from solver.model.solvers.highs_run import Effort, HighsRun
from solver.model.solvers.linear_program import Simplex, least_whole
from solver.model.solvers.linear_rows import Floats, Program, Writer
from solver.model.solvers.relax_and_fix import Least, relax_and_fix
from solver.model.solvers.safe_bound import safe_bound
from tests.model.solvers.programs import least_by_trying, market_split, program_from

EFFORT = Effort(20.0, steps=(100_000, 1_000))


def _exact_bound(program: Program, costs: Floats, duals: Floats) -> Fraction:
    """What duals of rows with a lower side prove, in fractions."""
    y = [Fraction(max(dual, 0.0)) for dual in duals]
    reduced = [Fraction(cost) for cost in costs]
    for row in range(program.rows):
        for at in range(program.start[row], program.start[row + 1]):
            reduced[program.index[at]] -= Fraction(program.value[at]) * y[row]
    total = sum(a * Fraction(b) for a, b in zip(y, program.row_lower, strict=True))
    ends = zip(reduced, program.lower, program.upper, strict=True)
    return total + sum(min(r * Fraction(low), r * Fraction(high)) for r, low, high in ends)


def test_a_safe_bound_is_below_the_exact_one_and_close_to_it() -> None:
    """Over random programs and duals the bound is never above that in fractions, by 1e-9 below."""
    for seed in range(200):
        program, costs = program_from(seed, columns=8, rows=6)
        chance = Random(f"duals {seed}")
        duals = np.array([chance.choice((0.0, chance.uniform(-1, 9))) for _ in range(program.rows)])
        safe = safe_bound(program, costs, duals, program.lower, program.upper)
        exact = _exact_bound(program, costs, duals)
        assert Fraction(safe) <= exact
        assert float(exact) - safe < 1e-9


def test_duals_of_a_column_without_an_end_prove_nothing() -> None:
    """A cost that may be below zero by rounding, on a column without an end, leaves no bound."""
    costs, duals = np.array([1.0]), np.array([1.0])
    for upper, proves in ((10.0, True), (math.inf, False)):
        writer = Writer()
        writer.row([(writer.column(upper), 1.0)], lower=2.0)
        program = writer.program()
        safe = safe_bound(program, costs, duals, program.lower, program.upper)
        assert 2.0 - 1e-9 < safe <= 2.0 if proves else safe == -math.inf


def test_relax_and_fix_never_contradicts_trying_everything() -> None:
    """Over 150 programs: bounds are at most the optimum, values at least, no false refusals."""
    solved = refused = exact = 0
    for seed in range(150):
        program, costs = program_from(seed)
        best = least_by_trying(program, costs)
        fixed = relax_and_fix(Simplex.of(program), costs, EFFORT, gap=0.0, full=None)
        full = relax_and_fix(Simplex.of(program), costs, EFFORT, gap=0.0, full=EFFORT)
        if best is None:
            assert fixed.values is full.values is None
            assert full.infeasible
            refused += 1
            continue
        assert not fixed.infeasible
        assert fixed.bound <= best
        assert fixed.objective >= best - 1e-6
        assert full.objective == pytest.approx(best)
        assert full.searched <= best + 1e-6
        solved += 1
        exact += fixed.objective < best + 1e-6
    assert solved > 90
    assert refused > 40
    assert exact > solved / 2


def test_that_no_values_will_do_is_proven() -> None:
    """Whatever HiGHS calls infeasible among divisible values is proven by its ray as well."""
    proven = 0
    for seed in range(150):
        program, costs = program_from(seed)
        relaxed = Simplex.of(program).least(costs, EFFORT)
        assert relaxed.infeasible == relaxed.surely
        proven += relaxed.surely
    assert proven > 20


def test_a_limit_set_later_counts_and_can_be_lifted() -> None:
    """X + y ≥ 3 costs 3 where x may be 3; 5 where x may be 1 and y costs 2; and 3 once more."""
    writer = Writer()
    x, y = writer.column(3.0), writer.column(3.0)
    writer.row([(x, 1.0), (y, 1.0)], lower=3.0)
    simplex, costs = Simplex.of(writer.program()), np.array([1.0, 2.0])
    for most, least in ((3.0, 3.0), (1.0, 5.0), (3.0, 3.0)):
        simplex.limit(x, most)
        assert simplex.least(costs, EFFORT).bound == pytest.approx(least)


def test_a_start_is_kept_where_counts_that_came_out_whole_leave_nothing() -> None:
    """Where fixing fails, values that agree with the start are kept, so that the start is found."""
    for seed in range(150):
        program, costs = program_from(seed)
        known = relax_and_fix(Simplex.of(program), costs, EFFORT, gap=0.0, full=EFFORT)
        if known.values is not None:
            again = relax_and_fix(
                Simplex.of(program), costs, EFFORT, gap=0.0, full=None, start=known.values
            )
            assert again.values is not None


def test_a_column_named_twice_in_a_row_is_refused() -> None:
    """HiGHS takes no row that names a column twice, and that is an error of the writer's."""
    writer = Writer()
    column = writer.column(1.0)
    writer.row([(column, 1.0), (column, 1.0)], lower=1.0)
    program = writer.program()
    with pytest.raises(ValueError, match="twice"):
        HighsRun().load(program, np.zeros(1), program.lower, program.upper, with_whole=False)
    with pytest.raises(ValueError, match="no option"):
        HighsRun().set("no such option", 1)


def test_a_search_ends_half_a_second_after_a_stop() -> None:
    """A search that would take minutes ends within half a second of a stop, and says so."""
    program, costs = market_split(1)
    begun = time.monotonic()
    effort = Effort(600.0, should_stop=lambda: time.monotonic() > begun + 0.3)
    whole = least_whole(program, costs, effort, lower=program.lower, upper=program.upper, gap=0.0)
    assert time.monotonic() - begun < 0.8
    assert not whole.proven
    assert effort.is_over()


def test_a_search_that_counts_its_steps_repeats_itself() -> None:
    """Two searches of fifty nodes end with the same values and the same bound."""
    program, costs = market_split(2)
    one, two = (
        least_whole(
            program,
            costs,
            Effort(60.0, steps=(100_000, 50)),
            lower=program.lower,
            upper=program.upper,
            gap=0.0,
        )
        for _ in range(2)
    )
    assert not one.proven
    assert one.values is not None
    assert two.values is not None
    assert (one.values == two.values).all()
    assert (one.objective, one.bound) == (two.objective, two.bound)


def test_what_nothing_is_known_of_has_no_bound() -> None:
    """A solve that was stopped before it began claims nothing."""
    program, costs = program_from(3)
    stopped = Effort(20.0, should_stop=lambda: True)
    least = relax_and_fix(Simplex.of(program), costs, stopped, gap=0.0, full=stopped)
    assert isinstance(least, Least)
    best = least_by_trying(program, costs)
    assert best is None or least.bound <= best
