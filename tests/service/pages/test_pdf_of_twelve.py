"""The PDF of the largest example: its pages, its text and the heads of its tables.

The short form prints two kinds of sheets; HAULWRIGHT_LONG=1 prints all of them.
"""

import json
import os
import re
from pathlib import Path

import pytest
from pypdf import PdfReader

from service.jobs.child import solve_document
from service.jobs.child_process import SILENT, JobLimits, Talk
from service.pages.blocks import Table
from service.pages.pdf_job import print_pdf
from service.pages.pdf_printer import can_print
from service.pages.render import render_pages
from service.pages.sections import sections_of
from tests.service.pages.conftest import LIMITS, facts_of
from tests.service.pages.pdf_words import Page, Word, beyond_the_margins, overlapping, pages_of
from tests.service.pages.test_printed_pages import PDF_TOOLS

EXAMPLE = Path(__file__).parents[3] / "examples" / "guided-twelve.json"
LONG = "HAULWRIGHT_LONG" in os.environ
SHEETS = None if LONG else frozenset({"cover", "flights"})
_PRINTING = JobLimits(wall_seconds=300, memory_bytes=2**30)
needs_pdf = pytest.mark.skipif(
    not can_print() or PDF_TOOLS is None,
    reason="the extra pdf, its libraries or poppler-utils are not installed",
)


@pytest.fixture(scope="module")
def twelve(tmp_path_factory):
    """The sections that are printed, their PDF, and the text of each page of it."""
    request = json.loads(EXAMPLE.read_text(encoding="utf-8"))
    found: list[bytes] = []
    first = Talk(
        tell=lambda told: found.append(told) if json.loads(told)["peak"] else None,
        should_finish=lambda: bool(found),
    )
    outcome = json.loads(solve_document(json.dumps(request).encode(), LIMITS, first))
    assert outcome["outcome"] == "solved"
    facts = facts_of(outcome, "metric", request)
    sections = sections_of(facts, paper="a4", only=SHEETS)
    file = tmp_path_factory.mktemp("pdf") / "twelve.pdf"
    file.write_bytes(print_pdf(render_pages(facts, sections, "a4").html, _PRINTING, SILENT))
    return sections, file, [page.extract_text() for page in PdfReader(file).pages]


def flat(text: str) -> str:
    """Text without its line breaks and blanks, which a PDF has elsewhere than its source."""
    return re.sub(r"\s+", "", text)


@pytest.mark.slow
@needs_pdf
def test_the_pdf_has_the_pages_that_it_says(twelve):
    """Each page has its number of how many, and each section begins on a page with its title."""
    sections, _, texts = twelve
    assert len(texts) >= 20
    assert all(f"page {n} of {len(texts)}" in text for n, text in enumerate(texts, 1))
    whole = [flat(text) for text in texts]
    for section in sections:
        assert any(flat(section.title) in text for text in whole), section.title
    assert sum(s.section_id.startswith("flight-") for s in sections) == 10


@pytest.mark.slow
@needs_pdf
def test_no_text_is_clipped_or_covered(twelve):
    """No word leaves the margins, and none runs over another."""
    _, file, _ = twelve
    pages = pages_of(file)
    assert sum(len(page.words) for page in pages) > 2000
    assert [word for page in pages for word in beyond_the_margins(page)] == []
    assert [pair for page in pages for pair in overlapping(page)] == []


@pytest.mark.slow
@needs_pdf
def test_each_page_of_a_table_has_its_header(twelve):
    """Wherever a row of a table stands, the names of all its columns are on the same page."""
    sections, _, texts = twelve
    found, rows, continued = 0, 0, 0
    whole = [flat(text) for text in texts]
    for section in sections:
        own = [text for text in whole if f",{flat(section.title)}" in text]
        for block in section.blocks:
            if isinstance(block, Table) and block.rows:
                header = flat("".join(column.name for column in block.columns))
                for row in block.rows:
                    pages = [text for text in own if flat("".join(row)) in text]
                    assert all(header in text for text in pages), (section.title, row)
                    found += bool(pages)
                rows += len(block.rows)
                continued += sum(header in text for text in own) > 1
    assert found > 0.95 * rows
    assert continued >= 3


def test_covered_and_cut_words_would_be_seen():
    """A word over another and a word past the margin are found; neighbours are not."""
    page = Page(595, 842, [Word(100, 10, 140, 20, "a"), Word(130, 12, 170, 22, "b"),
                           Word(172, 12, 190, 22, "c"), Word(560, 50, 590, 60, "d"),
                           Word(100, 24, 140, 34, "e")])  # fmt: skip
    assert overlapping(page) == [("a", "b")]
    assert beyond_the_margins(page) == ["d"]
