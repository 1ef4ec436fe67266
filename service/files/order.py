"""What the web process and the child that reads a file say to each other."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Literal

from service.errors import Fault, FilePlace

FileKind = Literal["gear-list", "roster", "route"]
ANSWER, FAULTS = b"A", b"F"
"""The first byte of what the child gives; JSON follows."""


@dataclass(frozen=True, slots=True)
class Order:
    """Which kind of file is where, what it is called, and which sheet to read."""

    kind: FileKind
    path: Path
    file: str
    sheet: str | None = None

    def document(self) -> bytes:
        """The order as JSON."""
        return json.dumps({**asdict(self), "path": str(self.path)}).encode()


def order_of(document: bytes) -> Order:
    """The order that somebody wrote."""
    given = json.loads(document)
    return Order(**{**given, "path": Path(given["path"])})


def faults_document(faults: Iterable[Fault]) -> bytes:
    """Faults as JSON."""
    return json.dumps([asdict(fault) for fault in faults]).encode()


def faults_of(document: bytes) -> tuple[Fault, ...]:
    """The faults that somebody wrote."""
    return tuple(
        Fault(**{**given, "place": FilePlace(**given["place"]) if given["place"] else None})
        for given in json.loads(document)
    )
