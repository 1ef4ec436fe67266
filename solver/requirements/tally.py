"""Figures and notices in the making, and the inputs that many of them share."""

from __future__ import annotations

from dataclasses import dataclass, field

from solver.problem import Problem
from solver.requirements.figures import About, Figure, Input, Notice
from solver.requirements.surroundings import PRACTICE, as_given


@dataclass(slots=True)
class Tally:
    """Figures and notices in the making, each figure or why it is missing."""

    figures: list[Figure] = field(default_factory=list)
    notices: list[Notice] = field(default_factory=list)

    # A row of a table reads in order: name, about, value, unit, formula, inputs.
    def count(  # noqa: PLR0917
        self,
        figure_id: str,
        about: About,
        value: float,
        unit: str,
        formula: str,
        inputs: tuple[Input, ...],
        *,
        source: str = PRACTICE,
        status: str = "practice",
    ) -> None:
        """Add a figure, by default of common practice without a source."""
        self.figures.append(Figure(figure_id, about, value, unit, formula, source, status, inputs))


def days_input(problem: Problem) -> Input:
    """Days of the calendar, as given [days]."""
    return as_given("days", len(problem.calendar.days), "days")


def people_input(problem: Problem) -> Input:
    """People of the roster, as given [people]."""
    return as_given("people", len(problem.roster), "people")
