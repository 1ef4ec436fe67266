"""A comparison on paper: bars of the peaks, tables of figures, what differs, and faults."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from api_schema.comparison_answer import ComparisonAnswer, ComparisonRowAnswer
from service.pages.blocks import Block, Drawing, Lines, Section, Table, table
from service.pictures.peaks import peaks_picture
from service.reports.comparisons import lines_of

_MOST_IN_A_TABLE = 4
_SAID_ELSEWHERE = ("edits", "errors", "reason")


def comparison_sections(answer: ComparisonAnswer, *, width: float) -> list[Section]:
    """The sheets of a comparison, drawn as wide as the paper."""
    return [
        Section("figures", "Figures of each variant", (*_first(answer, width), *_figures(answer))),
        Section("inputs", "What differs from the base", (_inputs(answer),)),
    ]


def _first(answer: ComparisonAnswer, width: float) -> Iterator[Block]:
    waits = sum(row.state in ("queued", "running") for row in answer.rows)
    lines = ["The tables do not say which variant is better: read each figure."]
    if waits:
        lines.insert(0, f"! {waits} variants were not solved yet when this was printed.")
    yield Lines(tuple(lines))
    figures = [(row.name, row.figures) for row in answer.rows if row.figures is not None]
    peaks = [(name, one.peak) for name, one in figures if one.peak is not None]
    if peaks:
        picture = peaks_picture(peaks, width=width)
        yield Drawing(picture.title, picture.finding, picture.svg())
    reasons = [(row.name, _reason(row)) for row in answer.rows if _reason(row)]
    yield table("Variants without a plan", ("Variant", "Why"), reasons)


def _reason(row: ComparisonRowAnswer) -> str:
    if row.errors:
        return " ".join(fault.detail for fault in row.errors)
    return (row.figures.reason if row.figures else None) or ""


def _figures(answer: ComparisonAnswer) -> Iterator[Table]:
    """A table for each few variants, with the base in the first column of all."""
    others = answer.rows[1:] or answer.rows[:0]
    for first in range(0, max(1, len(others)), _MOST_IN_A_TABLE):
        shown = [answer.rows[0], *others[first : first + _MOST_IN_A_TABLE]]
        part = answer.model_copy(update={"rows": shown})
        rows: list[Sequence[str]] = [
            (name.replace("_", " "), *cells)
            for name, cells in lines_of(part)
            if name not in _SAID_ELSEWHERE
        ]
        yield table("Differences from the base in brackets", ("Figure", *_names(shown)), rows)


def _names(rows: Sequence[ComparisonRowAnswer]) -> list[str]:
    """Names as headers: their first sign must not be taken for that of a kind of column."""
    return [f"\u200b{row.name}" for row in rows]


def _inputs(answer: ComparisonAnswer) -> Table:
    rows = [
        (row.name, "; ".join(row.edits) or "–", "; ".join(f"{p.where} {p.kind}" for p in row.input))
        for row in answer.rows[1:]
    ]
    return table("", ("Variant", "Edits", "Parts of the request"), rows)
