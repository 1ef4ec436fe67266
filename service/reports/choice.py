"""The variant with the least or the most of a figure, with the others within limits."""

from __future__ import annotations

from collections.abc import Callable

from api_schema.choice import ChoiceRequest, ChosenVariantAnswer, FigureLimit
from api_schema.comparison_answer import ComparisonRowAnswer
from api_schema.figures_answer import PlanFiguresAnswer

_FIXED = frozenset({"days", "people", "client_days", "trips", "flights"})
"""Figures that follow from the request, whatever the plan."""


def chosen_variant(rows: list[ComparisonRowAnswer], asked: ChoiceRequest) -> ChosenVariantAnswer:
    """The best of the solved variants that keep every limit, the first one of equals."""
    fitting = [row for row in rows if _keeps(row.figures, asked, _value)]
    sign = 1 if asked.goal == "least" else -1
    best = min(fitting, key=lambda row: sign * _of(row, asked.figure), default=None)
    if best is None:
        proven = all(not _may_beat(row, asked, None) for row in rows)
        return ChosenVariantAnswer(
            name=None, goal=asked.goal, figure=asked.figure, value=None, proven=proven
        )
    value = _of(best, asked.figure)
    others = (row for row in rows if row is not best)
    return ChosenVariantAnswer(
        name=best.name,
        goal=asked.goal,
        figure=asked.figure,
        value=value,
        proven=all(not _may_beat(row, asked, value) for row in others),
    )


def _of(row: ComparisonRowAnswer, figure: str) -> float:
    return float(getattr(row.figures, figure))


def _value(figures: PlanFiguresAnswer, figure: str) -> tuple[float, float] | None:
    """The figure of the plan that was found, from least to most; None where it has none."""
    value = getattr(figures, figure)
    return None if value is None else (float(value), float(value))


def _possible(figures: PlanFiguresAnswer, figure: str) -> tuple[float, float] | None:
    """What the figure could be in some plan of the variant, from least to most."""
    value = getattr(figures, figure)
    if value is None:
        return None
    if figure in _FIXED:
        return float(value), float(value)
    if figure == "peak":
        return float(value) * (1.0 - (figures.gap or 0.0)), float("inf")
    return 0.0, float("inf")


_Reading = Callable[[PlanFiguresAnswer, str], tuple[float, float] | None]


def _keeps(figures: PlanFiguresAnswer | None, asked: ChoiceRequest, read: _Reading) -> bool:
    """Whether a solved variant has the figure, and keeps the limits as its figures are read."""
    if figures is None or figures.outcome != "solved" or read(figures, asked.figure) is None:
        return False
    return all(_within(read(figures, limit.figure), limit) for limit in asked.limits)


def _within(ends: tuple[float, float] | None, limit: FigureLimit) -> bool:
    if ends is None:
        return False
    return (limit.most is None or ends[0] <= limit.most) and (
        limit.least is None or ends[1] >= limit.least
    )


def _may_beat(row: ComparisonRowAnswer, asked: ChoiceRequest, value: float | None) -> bool:
    """Whether a plan of a variant could keep the limits and have a better figure than a value."""
    if row.state == "faulty" or (row.figures and row.figures.outcome == "infeasible"):
        return False
    if row.figures is None or row.figures.outcome != "solved":
        return True
    if not _keeps(row.figures, asked, _possible):
        return False
    ends = _possible(row.figures, asked.figure)
    if value is None or ends is None:
        return True
    return ends[0] < value if asked.goal == "least" else ends[1] > value
