"""Text that a spreadsheet would run is defused, and every text comes back as it was."""

import csv
import io

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from service.reports.live_text import as_meant, defused, is_live
from service.reports.tables import Table

TEXT = st.text(
    alphabet=st.sampled_from(list("=+-@' \t\n\ra1,;\"\u00a0\u200b\uff1d\uff0d\ufe63\x00"))
)


@pytest.mark.parametrize(
    "text",
    ["=1", "+1", "-1", "@a", " =1", "\n=1", "\r\n@x", "\u00a0+1", "\u200b-1", "\uff1d1", "\ufe6b1"],
)
def test_text_that_may_run_is_live(text):
    """A sign of any width is seen behind blanks, line feeds and characters without width."""
    assert is_live(text)


@pytest.mark.parametrize("text", ["", "a", "a=1", "'a", "1-2", " a", "\u2212 8 degC"])
def test_other_text_is_not_live(text):
    """A sign within text, and a minus sign that no spreadsheet computes with, run nothing."""
    assert not is_live(text)


@given(TEXT)
@example("'=1")
@example("''\uff1d1")
@example("' =1")
def test_every_text_comes_back(text):
    """What is defused and read back is the same text, and nothing that is written is live."""
    written = defused(text)
    assert as_meant(written) == text
    assert not is_live(written)


@given(TEXT.filter(lambda text: "\x00" not in text))
def test_every_text_comes_back_through_a_csv_file(text):
    """Written as a cell of a table and read by Python's own reader, the text is the same."""
    table = Table(("name",), ((text,),))
    rows = list(csv.reader(io.StringIO(table.as_csv().decode(), newline="")))
    assert as_meant(rows[1][0] if rows[1:] and rows[1] else "") == text
