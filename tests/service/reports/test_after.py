"""The table of a report after an expedition."""

from __future__ import annotations

from service.reports.after import COLUMNS, report_table
from service.translate.write.after.report import write_report
from tests.service.trip_home import report


def rows(**body):
    """The lines of a report by their part."""
    table = report_table(write_report(report(**body)))
    assert table.columns == COLUMNS
    return table.as_rows()


def test_each_part_has_its_lines():
    """Two kitchens have nights, containers and fuel; three kinds have food."""
    parts = [row["part"] for row in rows()]
    assert {part: parts.count(part) for part in parts} == {
        "nights": 2,
        "food": 3,
        "containers": 2,
        "fuel": 2,
    }


def test_what_was_not_counted_says_so():
    """Its figure is empty."""
    food = next(row for row in rows() if row["part"] == "food")
    assert (food["used"], food["remark"]) == (None, "not counted")


def test_what_was_measured_has_lines_of_its_own():
    """Hours, loads, masses, rates and remarks follow in this order."""
    told = rows(
        containers=[{"unit_id": "all/can", "full": 1}],
        hours=[{"day": 1, "time": "6 h"}],
        loads=[{"person_id": "ann", "day": 1, "mass": "22 kg"}],
        weighed=[{"unit_id": "rope", "mass": "3.2 kg"}],
        remarks=["cold"],
    )
    later = [row for row in told if row["part"] not in {"nights", "food", "containers", "fuel"}]
    parts = ["hours", "load", "weighed", "rate", "rate", "rate", "rate", "remark"]
    assert [row["part"] for row in later] == parts
    assert (later[0]["planned"], later[0]["used"], later[0]["ratio"]) == (5.0, 6.0, 1.2)
    assert later[3]["what"] == "/menu/night_sets/0/fuel"
    assert str(later[3]["remark"]).endswith("says little")
    opened = next(row for row in told if row["part"] == "containers")
    assert (opened["planned"], opened["used"], opened["remark"]) == (2, 2, "1 full at home")
