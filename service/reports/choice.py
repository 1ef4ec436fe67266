"""The variant with the least or the most of a figure, with the others within limits."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any

from api_schema.choice import ChoiceRequest, ChosenVariantAnswer, FigureLimit
from api_schema.comparison_answer import ComparisonRowAnswer
from api_schema.figures_answer import PlanFiguresAnswer

Document = dict[str, Any]

_FIXED = frozenset({"days", "people", "client_days", "trips", "flights"})
"""Figures that follow from the request, whatever the plan."""


Known = Mapping[str, Mapping[str, float]]
"""By the name of a variant, the figures that its request says before it is solved."""


def known_figures(request: Document | None) -> dict[str, float]:
    """The figures that every plan of a request has; who goes nowhere is in no figure of people."""
    if request is None:
        return {}
    days, roster = len(request["calendar"]), request["roster"]
    clients = sum(person.get("guide") is not True for person in roster)
    found = {"days": float(days), "client_days": float(clients * days)}
    if not any(isinstance(day, dict) and day.get("teams") for day in request["calendar"]):
        found["people"] = float(len(roster))
    return found


def beaten_variants(
    rows: list[ComparisonRowAnswer], asked: ChoiceRequest, known: Known
) -> list[ComparisonRowAnswer]:
    """Of the variants that are not final those that cannot be chosen any more, without the base.

    Of equals the first is chosen, so one with the same figure is beaten only after the best.
    """
    best = _best(rows, asked)
    if best is None:
        return []
    value, at = _of(best, asked.figure), rows.index(best)
    return [
        row
        for number, row in enumerate(rows)
        if number > 0
        and row.state in ("queued", "running")
        and (told := known.get(row.name, {}).get(asked.figure)) is not None
        and not _is_better(told, value, asked)
        and (told != value or number > at)
    ]


def chosen_variant(
    rows: list[ComparisonRowAnswer], asked: ChoiceRequest, known: Known = MappingProxyType({})
) -> ChosenVariantAnswer:
    """The best of the solved variants that keep every limit, the first one of equals."""
    best = _best(rows, asked)
    if best is None:
        proven = all(not _may_beat(row, asked, None, known) for row in rows)
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
        proven=all(not _may_beat(row, asked, value, known) for row in others),
    )


def _best(rows: list[ComparisonRowAnswer], asked: ChoiceRequest) -> ComparisonRowAnswer | None:
    fitting = [row for row in rows if _keeps(row.figures, asked, _value)]
    sign = 1 if asked.goal == "least" else -1
    return min(fitting, key=lambda row: sign * _of(row, asked.figure), default=None)


def _is_better(one: float, value: float, asked: ChoiceRequest) -> bool:
    return one < value if asked.goal == "least" else one > value


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


def _may_beat(
    row: ComparisonRowAnswer, asked: ChoiceRequest, value: float | None, known: Known
) -> bool:
    """Whether a plan of a variant could keep the limits and have a better figure than a value."""
    if row.state == "faulty" or (row.figures and row.figures.outcome == "infeasible"):
        return False
    if row.figures is None or row.figures.outcome != "solved":
        told = known.get(row.name, {})
        if value is not None and asked.figure in told:
            return _is_better(told[asked.figure], value, asked)
        return True
    if not _keeps(row.figures, asked, _possible):
        return False
    ends = _possible(row.figures, asked.figure)
    if value is None or ends is None:
        return True
    return _is_better(ends[0] if asked.goal == "least" else ends[1], value, asked)
