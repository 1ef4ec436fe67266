"""The sheet of a report after an expedition."""

from __future__ import annotations

from service.pages.after import report_sections
from service.pages.blocks import Lines, Table
from tests.service.trip_home import CAN, written


def test_each_part_that_has_lines_has_a_table():
    """Nights, food, containers, fuel and rates have one, hours and loads none."""
    (section,) = report_sections(written(containers=[CAN], remarks=["Cold."]))
    tables = [block for block in section.blocks if isinstance(block, Table)]
    assert [one.caption for one in tables] == [
        "Nights",
        "Food",
        "Fuel containers",
        "Fuel",
        "Rates for the next request",
    ]
    assert tables[3].rows[0][3:6] == ("1200", "1600", "1.3333")
    assert tables[1].rows[0][4] == ""


def test_what_it_says_comes_first_and_cautions_last():
    """Remarks stand before the cautions."""
    (section,) = report_sections(written(remarks=["Cold."]))
    lines = [block.lines for block in section.blocks if isinstance(block, Lines)]
    assert lines[0][0].startswith("Spent: 9 person-nights.")
    assert lines[1:] == [("Remark: Cold.",), ("! Measure it.",)]
