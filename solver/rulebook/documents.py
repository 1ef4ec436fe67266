"""The documents from which rules and defaults are read, each under an id of its own.

`seen` says how: `read` in the document or a public copy, mostly in excerpts; `quoted` in a text
that quotes it; `memory` for a part that nobody has opened. A copy without its title page says so.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Seen = Literal["read", "quoted", "memory"]


@dataclass(frozen=True, slots=True)
class Document:
    """A document with its title, who published it, and the year; None where none was seen."""

    document_id: str
    title: str
    publisher: str
    year: int | None
    seen: Seen = "read"

    @property
    def words(self) -> str:
        """The document in one line."""
        how = {"read": "", "quoted": ", seen quoted only", "memory": ", from memory"}[self.seen]
        year = "no year seen" if self.year is None else str(self.year)
        return f"{self.title} ({self.publisher}, {year}{how})"


@dataclass(frozen=True, slots=True)
class Citation:
    """Where a document says it, and what it says in our words; `section` empty where not known."""

    document: Document
    says: str
    section: str = ""

    @property
    def place(self) -> str:
        """The document and the section in one line."""
        return self.document.words + (f", {self.section}" if self.section else "")

    @property
    def words(self) -> str:
        """The citation in one line, with what the document says."""
        return f"{self.place}: {self.says}"


def cited(status: str, citations: tuple[Citation, ...]) -> str:
    """The status of a source with the documents that it names, in one line."""
    if not citations:
        return status
    return f"{status}: " + "; ".join(citation.place for citation in citations)
