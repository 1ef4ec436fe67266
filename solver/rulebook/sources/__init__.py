"""All documents that rules and defaults name, by id."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from solver.rulebook.documents import Document
from solver.rulebook.sources.authorities import AUTHORITIES
from solver.rulebook.sources.handbooks import HANDBOOKS
from solver.rulebook.sources.medicine import MEDICINE
from solver.rulebook.sources.stoves import STOVES

ALL_DOCUMENTS: tuple[Document, ...] = (*MEDICINE, *AUTHORITIES, *HANDBOOKS, *STOVES)
"""In the order of the rooms that hold them."""

DOCUMENTS: Mapping[str, Document] = MappingProxyType({d.document_id: d for d in ALL_DOCUMENTS})
"""By id."""
