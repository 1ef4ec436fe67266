"""The report after an expedition on paper: what it says, planned against used, rates, remarks."""

from __future__ import annotations

from itertools import groupby

from api_schema.report_answer import TripReportAnswer
from service.pages.blocks import Block, Lines, Section, table
from service.reports.after import report_table

_CAPTIONS = {
    "nights": "Nights",
    "food": "Food",
    "containers": "Fuel containers",
    "fuel": "Fuel",
    "hours": "Hours of legs",
    "load": "Loads on a scale",
    "weighed": "Things on a scale",
    "rate": "Rates for the next request",
}
_COLUMNS = ("What", "Where", "~Unit", "#Planned", "#Used", "#Ratio", "Remark")


def report_sections(report: TripReportAnswer) -> list[Section]:
    """The one section of a report."""
    blocks: list[Block] = [Lines((*report.say, *report.counted_otherwise, *report.not_given))]
    rows = report_table(report).rows
    for part, lines in groupby(rows, key=lambda row: row[0]):
        if part in _CAPTIONS:
            cells = [tuple("" if c is None else str(c) for c in row[1:]) for row in lines]
            blocks.append(table(_CAPTIONS[str(part)], _COLUMNS, cells))
    if report.remarks:
        blocks.append(Lines(tuple(f"Remark: {remark}" for remark in report.remarks)))
    blocks.append(Lines(tuple(f"! {caution.text}" for caution in report.cautions)))
    return [Section("report", "Planned against used", tuple(blocks))]
