"""The screen of the difference between two plans: figures, people, things, loads, requests."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from api_schema.difference_answer import DifferenceAnswer
from service.reports.comparisons import SHARES
from service.screens.frame import Screen, screen

Value = str | int | float | None
NONE = "–"


@dataclass(frozen=True, slots=True)
class DifferenceTable:
    """What differs in one respect; with `numbers` all columns but the first hold numbers."""

    title: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    numbers: bool = True


def difference_screen(told: DifferenceAnswer) -> Screen:
    """The page of what differs from one plan to another."""
    tables = [table for table in _tables(told) if table.rows]
    return screen(
        "difference.html.j2",
        title="Two plans compared",
        one=told.plan_id,
        other=told.to_plan_id,
        left=told.people_left,
        joined=told.people_joined,
        reasons=[
            (plan_id, figures.reason)
            for plan_id, figures in (
                (told.plan_id, told.figures_from),
                (told.to_plan_id, told.figures_to),
            )
            if figures.reason
        ],
        tables=tables,
        input_left_out=told.input_left_out,
    )


def _tables(told: DifferenceAnswer) -> tuple[DifferenceTable, ...]:
    figures = [
        (
            one.figure.replace("_", " "),
            *(_figure(one.figure, value) for value in (one.from_, one.to)),
            _change(one.figure, one.change),
        )
        for one in told.figures
        if one.figure != "reason"
    ]
    taken = [
        (one.thing, str(one.from_count), str(one.to_count), f"{one.change_kg:+.3f}")
        for one in told.taken
    ]
    loads = [
        (
            f"{one.person_id}, day {one.day}, {one.from_place} to {one.to_place}",
            _kg(one.from_kg),
            _kg(one.to_kg),
            f"{one.change_kg:+.3f}",
        )
        for one in told.loads
    ]
    inputs = [
        (one.where, NONE if one.from_ is None else one.from_, NONE if one.to is None else one.to)
        for one in told.input
    ]
    return (
        _table("Figures", ("Figure", "First plan", "Second plan", "Change"), figures),
        _table("Taken along", ("Thing", "First plan", "Second plan", "Change kg"), taken),
        _table("Loads", ("Load", "First plan kg", "Second plan kg", "Change kg"), loads),
        _table("Requests", ("Part", "First request", "Second request"), inputs, numbers=False),
    )


def _table(
    title: str,
    columns: tuple[str, ...],
    rows: Sequence[tuple[str, ...]],
    *,
    numbers: bool = True,
) -> DifferenceTable:
    return DifferenceTable(title, columns, tuple(rows), numbers)


def _figure(name: str, value: Value) -> str:
    """A figure; shares of a cap in per cent."""
    if value is None:
        return NONE
    return f"{value:.2%}" if name in SHARES and isinstance(value, float) else str(value)


def _change(name: str, change: float | None) -> str:
    if change is None:
        return NONE
    return f"{100 * change:+.2f}" if name in SHARES else f"{change:+g}"


def _kg(mass: float | None) -> str:
    return NONE if mass is None else f"{mass:.3f}"
