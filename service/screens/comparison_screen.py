"""The screen of a comparison: bars of the peaks, and a table with a column for each variant."""

from __future__ import annotations

from api_schema.choice import ChosenVariantAnswer
from api_schema.comparison_answer import ComparisonAnswer
from service.pictures.peaks import peaks_picture
from service.reports.comparisons import SHARES, lines_of
from service.screens.drawn_for import NARROW, WIDE, for_width
from service.screens.frame import Screen, screen
from service.screens.words import moment_words


def comparison_screen(answer: ComparisonAnswer) -> Screen:
    """The page of one comparison."""
    peaks = [
        (row.name, row.figures.peak)
        for row in answer.rows
        if row.figures is not None and row.figures.peak is not None
    ]
    pictures = [for_width(peaks_picture(peaks, width=one)) for one in (WIDE, NARROW) if peaks]
    return screen(
        "comparison.html.j2",
        title=f"Comparison {answer.reference or ''}".strip(),
        comparison_id=answer.comparison_id,
        created=moment_words(answer.created_at),
        done=answer.done,
        waiting=sum(row.state in ("queued", "running") for row in answer.rows),
        rows=answer.rows,
        chosen=answer.chosen,
        chosen_value=_value(answer.chosen),
        lines=list(lines_of(answer)),
        pictures=pictures,
    )


def _value(chosen: ChosenVariantAnswer | None) -> str:
    """The figure that was chosen by, as the table shows it."""
    if chosen is None or chosen.value is None:
        return ""
    return f"{chosen.value:.2%}" if chosen.figure in SHARES else f"{chosen.value:g}"
