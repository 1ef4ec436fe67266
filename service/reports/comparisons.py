"""The table of a comparison: figures of each variant, and what differs from the base."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice
from typing import Any, Literal

from api_schema.comparison_answer import (
    ComparisonAnswer,
    ComparisonRowAnswer,
    VariantFaultAnswer,
)
from api_schema.difference_answer import InputDifferenceAnswer
from api_schema.figures_answer import PlanFiguresAnswer
from api_schema.plan_resource import PlanStateName
from service.errors import Fault
from service.reports.figures import cost_difference
from service.reports.input_differences import input_differences
from service.reports.tables import Cell, Table, table_of

Document = dict[str, Any]

MOST_INPUTS = 500
FIGURES = tuple(PlanFiguresAnswer.model_fields)
COLUMNS = ("name", "state", *FIGURES, "edits", "input", "errors", "plan_id")

SHARES = frozenset({"peak", "gap", "mean_share", "weakest_mean_share"})
"""Figures that a page shows in per cent."""


@dataclass(frozen=True, slots=True)
class VariantPlan:
    """A variant with what is stored of its plan; `request` and `figures` None where there is none.

    The request is as its own edits leave it.
    """

    name: str
    edits: tuple[str, ...]
    faults: tuple[Fault, ...]
    plan_id: str | None
    state: PlanStateName | Literal["deleted"] | None
    request: Document | None
    figures: PlanFiguresAnswer | None


def comparison_rows(variants: list[VariantPlan]) -> list[ComparisonRowAnswer]:
    """The rows of a comparison; the first variant is the base."""
    base = variants[0]
    return [_row(variant, base) for variant in variants]


def _row(variant: VariantPlan, base: VariantPlan) -> ComparisonRowAnswer:
    figures = variant.figures
    inputs: tuple[InputDifferenceAnswer, ...] = ()
    if variant.request is not None and base.request is not None:
        inputs = tuple(islice(input_differences(base.request, variant.request), MOST_INPUTS))
    full = None
    if base.figures and figures and variant.plan_id != base.plan_id:
        full = f"/v1/plans/{base.plan_id}/difference?to={variant.plan_id}"
    return ComparisonRowAnswer(
        name=variant.name,
        edits=list(variant.edits),
        plan_id=variant.plan_id,
        state=variant.state or ("faulty" if variant.faults else "not_accepted"),
        errors=[
            VariantFaultAnswer(pointer=fault.pointer, code=fault.code, detail=fault.detail)
            for fault in variant.faults
        ],
        figures=figures,
        change=_change(base.figures, figures),
        cost_change=_cost_change(base.figures, figures),
        input=list(inputs),
        difference=full,
    )


def _change(base: PlanFiguresAnswer | None, figures: PlanFiguresAnswer | None) -> dict[str, float]:
    """The figures that are numbers and differ, the variant minus the base."""
    if base is None or figures is None:
        return {}
    change: dict[str, float] = {}
    for name in FIGURES:
        one, other = getattr(base, name), getattr(figures, name)
        if isinstance(one, int | float) and isinstance(other, int | float) and one != other:
            change[name] = round(other - one, 4)
    return change


def _cost_change(
    base: PlanFiguresAnswer | None, figures: PlanFiguresAnswer | None
) -> dict[str, str]:
    """The costs that differ, the variant minus the base."""
    if base is None or figures is None:
        return {}
    found = (
        (name, cost_difference(getattr(base, name), getattr(figures, name)))
        for name in FIGURES
        if name.startswith("cost_")
    )
    return {name: change for name, change in found if change is not None}


def comparison_table(answer: ComparisonAnswer) -> Table:
    """One line for each variant, the base first."""
    return table_of(COLUMNS, [_cells(row) for row in answer.rows])


def _cells(row: ComparisonRowAnswer) -> dict[str, Cell]:
    figures: dict[str, Cell] = dict.fromkeys(FIGURES)
    if row.figures is not None:
        figures |= row.figures.model_dump()
    return {
        **figures,
        "name": row.name,
        "state": row.state,
        "edits": "; ".join(row.edits),
        "input": "; ".join(f"{part.where} {part.kind}" for part in row.input),
        "errors": "; ".join(f"{fault.pointer}: {fault.detail}" for fault in row.errors),
        "plan_id": row.plan_id,
    }


def lines_of(answer: ComparisonAnswer) -> Iterator[tuple[str, list[str]]]:
    """A line for each figure that any variant has, with a cell for each variant."""
    yield "state", [row.state for row in answer.rows]
    yield "edits", ["; ".join(row.edits) for row in answer.rows]
    for name in FIGURES:
        cells = [_shown(name, row) for row in answer.rows]
        if any(cells):
            yield name, cells
    yield "errors", ["; ".join(fault.detail for fault in row.errors) for row in answer.rows]


def _shown(name: str, row: ComparisonRowAnswer) -> str:
    """A figure with what it differs by from the base."""
    value = None if row.figures is None else getattr(row.figures, name)
    if value is None:
        return ""
    if name in row.cost_change:
        return f"{value} ({row.cost_change[name].partition(' ')[0]})"
    change = row.change.get(name)
    if name in SHARES:
        return f"{value:.2%}" + ("" if change is None else f" ({change * 100:+.2f})")
    return str(value) + ("" if change is None else f" ({change:+g})")
