"""The relaxation of a frame as an object: its columns, what each counts, and its linear program."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from solver.model.formulation.frame import Frame
from solver.model.rows import LoadRow, Row
from solver.model.solvers.linear_program import Simplex
from solver.model.solvers.linear_rows import Program, Writer


@dataclass(slots=True)
class Relaxation:
    """The linear model and its columns; kept between goals, which only change its objective.

    `rides` are the columns of the rides that are not settled, `settled` the units of the others;
    `trip_peak` and `peak` columns of fractions, `hard` what trips are above 90 %, by step,
    each with what it counts. `impossible` names the rule that cannot be kept
    whatever rides are chosen. `steady`, `seed` and `should_stop` say how its solves are run.
    """

    frame: Frame
    writer: Writer
    rides: dict[tuple[int, int], int] = field(default_factory=dict)
    settled: dict[tuple[int, int], int] = field(default_factory=dict)
    trip_peak: list[int] = field(default_factory=list)
    peak: int = 0
    hard: dict[int, float] = field(default_factory=dict)
    impossible: str | None = None
    excess: list[tuple[LoadRow, int]] | None = None
    short: dict[Row, int] | None = None
    short_is_unused: bool = False
    pins_lack: bool = False
    steady: bool = False
    seed: int = 1
    should_stop: Callable[[], bool] | None = None
    _simplex: Simplex | None = None

    @property
    def simplex(self) -> Simplex:
        """The program with all columns divisible, and where its last solve ended."""
        if self._simplex is None:
            self._simplex = Simplex.of(self.writer.program())
        return self._simplex

    @property
    def program(self) -> Program:
        """The rows as arrays."""
        return self.simplex.program
