"""Computed days against the days of measured groups."""

from __future__ import annotations

import os

import pytest

from tests.requirements.measured.compare import (
    TABLE,
    WITHIN_EACH,
    WITHIN_MEAN,
    compared,
    groups,
    table,
)

ALL = [compared(row) for row in groups()]
HELD_OUT = [row for row in ALL if row.held_out]


def test_table_is_what_the_code_gives() -> None:
    """The committed table is the one that the code writes today, misses and all.

    With HAULWRIGHT_WRITE_TABLES set the test writes it anew.
    """
    if os.environ.get("HAULWRIGHT_WRITE_TABLES"):
        TABLE.write_text(table(ALL), encoding="utf-8")
    assert TABLE.read_text(encoding="utf-8") == table(ALL)


def test_enough_groups_are_held_out() -> None:
    """At least eight groups are held out, with sledges, skis, soldiers, height and a race."""
    assert len(HELD_OUT) >= 8
    assert {"P1", "S1", "S5", "S6", "H7", "U1"} <= {row.group_id for row in HELD_OUT}


def test_mean_over_held_out_groups() -> None:
    """Over the held-out groups computed days are within 10 % of the measured ones in the mean."""
    mean = sum(row.ratio for row in HELD_OUT) / len(HELD_OUT)
    assert abs(mean - 1) <= WITHIN_MEAN


@pytest.mark.parametrize("row", HELD_OUT, ids=lambda row: row.group_id)
def test_each_held_out_group(row) -> None:
    """Each held-out group's computed day is within 20 % of its measured mean."""
    assert abs(row.ratio - 1) <= WITHIN_EACH


def test_misses_are_named() -> None:
    """The one miss is the women's ice-sheet crossing, a fifth too high; the table names it.

    It is not held out. Its ration of 5000 kcal and its stores, not isotopes, gave its measured day.
    """
    missed = [row.group_id for row in ALL if abs(row.ratio - 1) > WITHIN_EACH]
    assert missed == ["P2"]
    assert "More than 20 % off: P2." in TABLE.read_text(encoding="utf-8")
