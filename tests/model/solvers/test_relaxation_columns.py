"""The object of a relaxation: its linear program is written once, and only when asked for."""

from __future__ import annotations

from solver.model.formulation.build_frame import build_frame
from solver.model.solvers.linear_rows import Writer
from solver.model.solvers.relaxation_columns import Relaxation
from tests.pipeline.tiny_worlds import tiny_world


def test_the_program_has_the_columns_written_until_it_was_asked_for() -> None:
    """Two columns before the first question give two for good; the basis stays with them."""
    writer = Writer()
    relaxation = Relaxation(frame=build_frame(tiny_world(1)), writer=writer)
    first, second = writer.column(1.0), writer.column(2.0)
    writer.row([(first, 1.0), (second, 1.0)], lower=1.0)
    simplex = relaxation.simplex
    assert len(relaxation.program.upper) == 2
    writer.column(3.0)
    assert relaxation.simplex is simplex
    assert len(relaxation.program.upper) == 2
