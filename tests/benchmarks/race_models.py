"""Two ways of writing one and the same model down: for CP-SAT, and for MathOpt's MIP solvers.

A model here has whole variables from 0 up, rows on counts of units, and rows on loads. Rows
in the load fraction share one peak, which is what is minimised. Loads are whole grams for
CP-SAT; for the MIP solvers they are kg or L and the peak is a fraction, as numbers of like
size suit them.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Protocol, TypeAlias

from ortools.math_opt.python import mathopt
from ortools.sat.python import cp_model

from solver.quantities import FRACTION_GRID, fraction_up

BOUND_SLACK = 0.02
"""What a bound from floating point is lowered by before it is rounded up [1/10,000]."""

PEAK_SLACK = 0.002
"""The same for a peak told by a log of seven digits; the last one is worked out anew."""

Variable: TypeAlias = cp_model.IntVar | mathopt.Variable
Amount: TypeAlias = Variable | int
"""Units that are chosen, or a number that is known."""


class RaceModel(Protocol):
    """What a model's builder needs: whole variables, and rows on counts and on loads."""

    def whole(self, most: int) -> Amount:
        """A whole number of units from 0 to `most`."""

    def add_count(
        self, terms: Iterable[tuple[Amount, int]], *, at_least: int, exactly: bool = False
    ) -> None:
        """Σ factor × units ≥ `at_least`, or = it."""

    def add_load(
        self, terms: Iterable[tuple[Amount, int]], *, fixed: int, cap: int, in_fraction: bool
    ) -> None:
        """Σ weight × units + `fixed` ≤ `cap`, times the peak where it counts in the fraction."""


def split(terms: Iterable[tuple[Amount, int]]) -> tuple[list[Variable], list[int], int]:
    """The variables, their factors, and the sum of what is known."""
    known = 0
    variables: list[Variable] = []
    factors: list[int] = []
    for units, factor in terms:
        if isinstance(units, int):
            known += factor * units
        elif factor:
            variables.append(units)
            factors.append(factor)
    return variables, factors, known


class CpSatModel:
    """The model on CP-SAT; the peak is whole 1/10,000."""

    def __init__(self) -> None:
        self.model = cp_model.CpModel()
        self.peak = self.model.new_int_var(0, FRACTION_GRID, "peak")
        self.model.minimize(self.peak)
        self.wholes: list[cp_model.IntVar] = []
        self.impossible = False

    def whole(self, most: int) -> cp_model.IntVar:
        """A whole number of units from 0 to `most`."""
        self.wholes.append(self.model.new_int_var(0, most, ""))
        return self.wholes[-1]

    def add_count(
        self, terms: Iterable[tuple[Amount, int]], *, at_least: int, exactly: bool = False
    ) -> None:
        """Σ factor × units ≥ `at_least`, or = it."""
        variables, factors, known = split(terms)
        if not factors:
            self.impossible |= known < at_least or (exactly and known > at_least)
            return
        total = cp_model.LinearExpr.weighted_sum(variables, factors) + known
        self.model.add(total == at_least if exactly else total >= at_least)

    def add_load(
        self, terms: Iterable[tuple[Amount, int]], *, fixed: int, cap: int, in_fraction: bool
    ) -> None:
        """Σ weight × units + `fixed` ≤ `cap`, times the peak where it counts in the fraction."""
        variables, factors, known = split(terms)
        load = cp_model.LinearExpr.weighted_sum(variables, factors)
        load += known + fixed
        if in_fraction:
            self.model.add(FRACTION_GRID * load <= cap * self.peak)
        elif factors:
            self.model.add(load <= cap)
        else:
            self.impossible |= known + fixed > cap


def together(variables: list[Variable], factors: list[int]) -> dict[Variable, int]:
    """The factor of each variable, those of one that comes several times added up."""
    total: dict[Variable, int] = {}
    for variable, factor in zip(variables, factors, strict=True):
        total[variable] = total.get(variable, 0) + factor
    return total


class MipModel:
    """The model in MathOpt; the peak is a fraction, masses are in kg and volumes in L."""

    def __init__(self) -> None:
        self.model = mathopt.Model(name="race")
        self.peak = self.model.add_variable(lb=0.0, ub=1.0, name="peak")
        self.model.minimize(self.peak)
        self.wholes: list[mathopt.Variable] = []
        self.impossible = False

    def whole(self, most: int) -> mathopt.Variable:
        """A whole number of units from 0 to `most`."""
        self.wholes.append(self.model.add_integer_variable(lb=0.0, ub=most))
        return self.wholes[-1]

    def add_count(
        self, terms: Iterable[tuple[Amount, int]], *, at_least: int, exactly: bool = False
    ) -> None:
        """Σ factor × units ≥ `at_least`, or = it."""
        variables, factors, known = split(terms)
        if not factors:
            self.impossible |= known < at_least or (exactly and known > at_least)
            return
        rest = at_least - known
        row = self.model.add_linear_constraint(lb=rest, ub=rest if exactly else math.inf)
        for variable, factor in together(variables, factors).items():
            row.set_coefficient(variable, factor)

    def add_load(
        self, terms: Iterable[tuple[Amount, int]], *, fixed: int, cap: int, in_fraction: bool
    ) -> None:
        """Σ weight × units + `fixed` ≤ `cap`, times the peak where it counts in the fraction."""
        variables, factors, known = split(terms)
        room = (0 if in_fraction else cap) - known - fixed
        if not factors and not in_fraction:
            self.impossible |= room < 0
            return
        row = self.model.add_linear_constraint(ub=room / 1000)
        for variable, factor in together(variables, factors).items():
            row.set_coefficient(variable, factor / 1000)
        if in_fraction:
            row.set_coefficient(self.peak, -cap / 1000)


class Replay:
    """A solution put through the model's own rows in whole numbers: its peak, its breaches.

    Written by the same builder, with the values of a solution in place of its variables.
    """

    def __init__(self, values: Iterable[int]) -> None:
        self.values = iter(values)
        self.peak = 0
        self.broken = 0

    def whole(self, most: int) -> int:
        """The value of the next variable."""
        units = next(self.values)
        self.broken += not 0 <= units <= most
        return units

    def add_count(
        self, terms: Iterable[tuple[Amount, int]], *, at_least: int, exactly: bool = False
    ) -> None:
        """Count the row if it is not kept."""
        _, _, total = split(terms)
        self.broken += total != at_least if exactly else total < at_least

    def add_load(
        self, terms: Iterable[tuple[Amount, int]], *, fixed: int, cap: int, in_fraction: bool
    ) -> None:
        """Count the row if it is not kept, and raise the peak to the load's fraction."""
        _, _, load = split(terms)
        load += fixed
        self.broken += load > cap
        if in_fraction and load <= cap:
            self.peak = max(self.peak, fraction_up(load_g=load, cap_g=cap))


def peak_on_grid(fraction: float) -> int:
    """A peak from floating point, rounded up [1/10,000]."""
    return max(0, math.ceil(fraction * FRACTION_GRID - PEAK_SLACK))


def bound_on_grid(fraction: float) -> int:
    """A bound from floating point, made safe and rounded up [1/10,000]."""
    return max(0, math.ceil(fraction * FRACTION_GRID - BOUND_SLACK))
