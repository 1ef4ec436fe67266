"""The glossary as callers and contributors read it: each term once, on the page and in the file."""

import re
from html import unescape
from importlib.resources import files

import pytest

from service.reports import glossary as reports
from service.reports.glossary import glossary

TERMS = [term for table in glossary() for term in table.terms]
DECIDED = (
    "expedition",
    "trip",
    "outbound",
    "homeward",
    "fly-in",
    "fly-out",
    "elevation",
    "elevation band",
    "day kind",
    "ascent",
    "height",
    "human waste",
    "trash",
    "advisory",
    "caution",
    "waiver",
    "given",
    "relaxation",
    "formulation",
    "allowed trips",
    "soft constraint",
    "repair",
    "streak",
    "equipment",
    "search state",
    "slack",
    "lower bound",
)


@pytest.fixture(scope="module")
def page(shared_client) -> str:
    """The page of the glossary as its reader sees it."""
    answer = shared_client.get("/docs/glossary")
    assert answer.status_code == 200
    assert answer.headers["content-type"] == "text/html; charset=utf-8"
    return answer.text


def test_no_term_is_explained_twice():
    """Each term of the glossary is in it once."""
    assert len({term.term for term in TERMS}) == len(TERMS) >= 40


@pytest.mark.parametrize("word", DECIDED)
def test_each_decided_word_is_explained(word):
    """The words on which the project decided are terms of the glossary."""
    assert word in {term.term for term in TERMS}


def test_every_line_of_a_table_is_read():
    """No row of the file is lost on the way to the page: lines less heads and rules are terms."""
    text = (files("service") / "guides" / "glossary.md").read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if line.startswith("|")]
    assert len(lines) == len(TERMS) + 2 * len(glossary())


@pytest.mark.parametrize("term", TERMS, ids=lambda term: term.anchor)
def test_each_term_is_on_the_page(page, term):
    """The page has a line for the term, found by its name, with its meaning and note."""
    (line,) = (line for line in page.splitlines() if f'<tr id="{term.anchor}">' in line)
    plain = unescape(re.sub(r"<[^>]+>", "", line))
    assert plain == term.term + re.sub("[*`]", "", term.meaning + term.note)


@pytest.mark.parametrize("term", TERMS, ids=lambda term: term.anchor)
def test_words_set_apart_are_terms_themselves(term):
    """A word between asterisks is a term of the glossary."""
    named = {word.lower() for word in re.findall(r"\*([^*]+)\*", term.meaning + term.note)}
    assert named - {other.term for other in TERMS} <= {"no plan in time"}


def test_the_page_needs_nothing_else(page):
    """Apart from the icon, the page names no file and no host: it works offline and on paper."""
    icon = '<link rel="icon" href="/icon.svg">'
    assert page.count(icon) == 1
    rest = page.replace(icon, "")
    assert re.findall(r"(?:src|href)=|<script|<link|@import|url\(|://", rest) == []


def test_the_api_page_leads_to_the_glossary(shared_client):
    """The description that /docs shows has a link to the glossary and one to the rules."""
    description = shared_client.get("/openapi.json").json()["info"]["description"]
    assert "(/docs/glossary)" in description
    assert "(/docs/rules)" in description


def test_a_row_without_three_cells_is_refused():
    """A line of a table that is not term, meaning and note is an error, not a lost term."""
    with pytest.raises(ValueError, match="no row of three cells"):
        reports._table(
            "The trade\n| term | meaning | not to be confused with |\n| cap | the most |"
        )


def test_a_table_without_headings_is_refused():
    """A table whose first line is not its headings is an error."""
    with pytest.raises(ValueError, match="no line of headings"):
        reports._table("The trade\n| cap | the most | |")


def test_the_pages_have_an_icon_of_their_own(shared_client):
    """The API page names the icon, which is an image that this service serves."""
    assert '"/icon.svg"' in shared_client.get("/docs").text
    icon = shared_client.get("/icon.svg")
    assert icon.headers["content-type"] == "image/svg+xml"
    assert icon.text.startswith("<svg ")
