"""The glossary of `service/guides/glossary.md`: as data for code, and as a page for people."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from html import escape
from importlib.resources import files

from service.reports.page import page

_ROW = re.compile(r"^\| (.+?) \| (.+?) \| (.*?) ?\|$")
_HEADING = "term"
_MARKS = (
    (re.compile(r"\*([^*]+)\*"), r"<em>\1</em>"),
    (re.compile(r"`([^`]+)`"), r"<code>\1</code>"),
)


@dataclass(frozen=True, slots=True)
class Term:
    """A term with its meaning; `note` is what the third column of its table says, or nothing."""

    term: str
    meaning: str
    note: str

    @property
    def anchor(self) -> str:
        """The id of the term's line on the page."""
        return self.term.replace(" ", "-")


@dataclass(frozen=True, slots=True)
class Table:
    """One table of the glossary: its heading, what its third column is, and its terms."""

    title: str
    note_title: str
    terms: tuple[Term, ...]


@cache
def glossary() -> tuple[Table, ...]:
    """All tables in the order of the file; ValueError for a line that is no row of three cells."""
    text = (files("service") / "guides" / "glossary.md").read_text(encoding="utf-8")
    return tuple(map(_table, text.split("\n## ")[1:]))


def _table(section: str) -> Table:
    title, *lines = section.splitlines()
    rows = [_cells(line) for line in lines if line.startswith("|") and not line.startswith("|---")]
    (head, _, note_title), *terms = rows
    if head != _HEADING:
        raise ValueError(f"the table {title!r} of the glossary has no line of headings")
    return Table(title, note_title, tuple(Term(*cells) for cells in terms))


def _cells(line: str) -> tuple[str, str, str]:
    row = _ROW.match(line)
    if row is None:
        raise ValueError(f"no row of three cells in the glossary: {line}")
    term, meaning, note = row.groups()
    return term, meaning, note


def glossary_page() -> str:
    """The glossary as one page of HTML that needs nothing else and prints on paper."""
    return page(
        "the glossary",
        "<h1>The glossary</h1>\n<p>One word for one thing, here and in every answer.</p>\n"
        + "".join(map(_section, glossary())),
    )


def _section(table: Table) -> str:
    rows = "".join(
        f'<tr id="{term.anchor}"><td><strong>{escape(term.term)}</strong></td>'
        f"<td>{_marked(term.meaning)}</td><td>{_marked(term.note)}</td></tr>\n"
        for term in table.terms
    )
    return (
        f"<h2>{escape(table.title)}</h2>\n<table>\n"
        f"<tr><th>term</th><th>meaning</th><th>{escape(table.note_title)}</th></tr>\n"
        f"{rows}</table>\n"
    )


def _marked(text: str) -> str:
    """Text with its asterisks and backquotes turned into HTML."""
    marked = escape(text)
    for pattern, replacement in _MARKS:
        marked = pattern.sub(replacement, marked)
    return marked
