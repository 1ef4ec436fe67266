"""Makes citations from short rows, so that a wrong id of a document fails on import."""

from __future__ import annotations

from collections.abc import Mapping

from solver.rulebook.documents import Citation
from solver.rulebook.sources import DOCUMENTS

Named = Mapping[str, tuple[Citation, ...]]
"""Citations by the id of a rule, or of a default."""


def named(rows: Mapping[str, tuple[tuple[str, str, str], ...]]) -> Named:
    """Citations from (document id, section, what it says); KeyError for an unknown document."""
    return {
        key: tuple(Citation(DOCUMENTS[d], says, section) for d, section, says in cited)
        for key, cited in rows.items()
    }
