"""An entry of the library as its caller sent it, read for being stored."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel, ValidationError

from api_schema.library_entry import (
    EntryKind,
    GearListToStore,
    MenuToStore,
    RosterToStore,
    RouteToStore,
)
from service.errors import RequestFaults
from service.pointers import resolved
from service.translate.read.wire_faults import wire_faults

ENTRY_MODELS: Mapping[EntryKind, type[BaseModel]] = {
    "routes": RouteToStore,
    "gear-lists": GearListToStore,
    "menus": MenuToStore,
    "rosters": RosterToStore,
}
_BESIDE = frozenset({"title", "reference"})


@dataclass(frozen=True, slots=True)
class EntryToStore:
    """What is stored of an entry: its content is JSON, as its caller wrote it."""

    title: str | None
    reference: str | None
    content: bytes


def read_entry(kind: EntryKind, document: dict[str, Any]) -> EntryToStore:
    """The entry that a document is; raises RequestFaults with every fault."""
    model = ENTRY_MODELS[kind]
    try:
        model.model_validate(document)
    except ValidationError as error:
        raise RequestFaults(resolved(wire_faults(error, model), document)) from None
    # What the caller wrote is kept, not what was read of it: a request has it as it was.
    content = {
        name: document.get(name, [] if name == "gear" else {})
        for name in model.model_fields
        if name not in _BESIDE
    }
    return EntryToStore(
        document.get("title"),
        document.get("reference"),
        json.dumps(content, ensure_ascii=False).encode(),
    )
