"""The questions of `service/guides/questions.md`: as data for code, and as a page for people."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from html import escape
from importlib.resources import files

from service.reports.page import page

_CELL = re.compile(r"(?<!\\)\|")
_CODE = re.compile(r"^`(.*)`$")
_CELLS = 5
_SHELL = re.compile(r"```bash\n(.*?)```", re.DOTALL)


@dataclass(frozen=True, slots=True)
class Question:
    """A question with the call that answers it; `read` says where in the answer, `body` is JSON."""

    number: int
    asked: str
    call: str
    body: str
    read: str


@dataclass(frozen=True, slots=True)
class Asker:
    """Who asks, and the questions."""

    title: str
    questions: tuple[Question, ...]


@cache
def askers() -> tuple[Asker, ...]:
    """All questions in the order of the file; ValueError for a row that has not five cells."""
    return tuple(map(_asker, _guide().split("\n## ")[1:]))


def _guide() -> str:
    return (files("service") / "guides" / "questions.md").read_text(encoding="utf-8")


def _asker(section: str) -> Asker:
    title, *lines = section.splitlines()
    rows = [line for line in lines if re.match(r"\| \d", line)]
    return Asker(title, tuple(map(_question, rows)))


def _question(row: str) -> Question:
    cells = [cell.strip() for cell in _CELL.split(row)[1:-1]]
    if len(cells) != _CELLS:
        raise ValueError(f"no row of five cells: {row}")
    number, asked, *codes = cells
    call, body, read = (_CODE.sub(r"\1", cell) for cell in codes)
    return Question(int(number), asked, call, body, read)


def questions_page() -> str:
    """The questions as one page of HTML that needs nothing else and prints on paper."""
    return page(
        "the questions of planning",
        "<h1>The questions of planning</h1>\n<p>Each has one call. A body that says "
        "<code>&quot;the request&quot;</code> has your request in that place. The last column says "
        "where the answer is.</p>\n"
        f"<p>For example, in bash:</p>\n<pre>{escape(''.join(_SHELL.findall(_guide())))}</pre>\n"
        + "".join(map(_section, askers())),
    )


def _section(asker: Asker) -> str:
    rows = "".join(
        f"<tr><td>{one.number}</td><td>{escape(one.asked)}</td><td><code>{escape(one.call)}</code>"
        f"{_body(one.body)}</td><td><code>{escape(one.read)}</code></td></tr>\n"
        for one in asker.questions
    )
    return (
        f"<h2>{escape(asker.title)}</h2>\n<table>\n<tr><th>no.</th><th>question</th>"
        f"<th>call and body</th><th>read</th></tr>\n{rows}</table>\n"
    )


def _body(body: str) -> str:
    return f"<br><code>{escape(body)}</code>" if body else ""
