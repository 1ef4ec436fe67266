"""A document as it is stored: its text, and a digest that tells it from every other."""

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class WrittenDocument:
    """JSON in UTF-8, and its digest."""

    text: bytes
    digest: str


def written(document: Mapping[str, object]) -> WrittenDocument:
    """The text of a document with its members in their order, and its digest."""
    text = json.dumps(document, ensure_ascii=False).encode()
    return WrittenDocument(text, document_digest(document))


def document_digest(document: Mapping[str, object]) -> str:
    """SHA-256 of a document with its members in alphabetical order, in hexadecimal."""
    canonical = json.dumps(document, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(canonical.encode()).hexdigest()
