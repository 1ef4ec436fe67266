"""A request document with its own edits done, and the way back to what the caller wrote."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from api_schema.strict import ID_PATTERN
from service.errors import Fault
from service.former_plans import COPIED
from service.translate.read.edits.nodes import Node, entries, grown, origin_of, plain, said
from service.translate.read.edits.without import take_off
from service.translate.read.near_names import unknown_id_words
from service.translate.read.notes import MOST_ADVISED


@dataclass(frozen=True, slots=True)
class EditNote:
    """What an edit did, or what it leaves to look at again; the pointer is where it was asked."""

    pointer: str
    what: str
    value: str


@dataclass(frozen=True, slots=True)
class EditedRequest:
    """A document to be read, what its edits did, their faults, and where each part was written."""

    document: dict[str, object]
    notes: tuple[EditNote, ...]
    faults: tuple[Fault, ...]
    origin_of: Callable[[str], str]


def with_edits_done(document: dict[str, object]) -> EditedRequest:
    """The document without the people named in `without`; the same document where it has none.

    A list that cannot be read stays in the document, where its faults are told with all others.
    """
    names = document.get("without", [])
    if not names or not isinstance(names, list) or not all(map(_is_id, names)):
        return EditedRequest(document, (), (), lambda pointer: pointer)
    root = grown({name: part for name, part in document.items() if name != "without"})
    known = [said(person, "person_id") for person in entries(root, "roster")]
    faults = _faults(names, known)
    if faults:
        return EditedRequest(_plain(root), (), faults, lambda pointer: pointer)
    told = take_off(root, frozenset(names))
    notes = [EditNote("/without", f"Taken off the roster: {', '.join(names)}.", _list(told.done))]
    if told.look_again:
        notes.append(EditNote("/without", "To look at again.", _list(told.look_again)))
    return EditedRequest(_plain(root), tuple(notes), (), lambda pointer: origin_of(root, pointer))


def request_to_compare(document: dict[str, object]) -> dict[str, object]:
    """A request as its edits leave it, without the loads of former plans that it names."""
    edited = with_edits_done(document).document
    options = edited.get("options")
    if not isinstance(options, dict):
        return edited
    named = {
        name: {key: value for key, value in former.items() if key != copy}
        for name, copy in COPIED
        if isinstance(former := options.get(name), dict)
    }
    return edited | {"options": options | named} if named else edited


def _is_id(name: object) -> bool:
    return isinstance(name, str) and re.fullmatch(ID_PATTERN, name, re.ASCII) is not None


def _plain(root: Node) -> dict[str, object]:
    document = plain(root)
    return document if isinstance(document, dict) else {}


def _list(words: list[str]) -> str:
    return "; ".join(words) or "nothing else names them"


def _faults(names: list[str], known: Sequence[object]) -> tuple[Fault, ...]:
    """Names of nobody, names that are there twice, and nobody left."""
    faults = []
    for number, name in enumerate(names):
        pointer = f"/without/{number}"
        if name in names[:number]:
            faults.append(Fault(pointer, "duplicate_id", "This person is named before."))
        elif name not in known:
            advised = len(faults) < MOST_ADVISED
            words = unknown_id_words("person", name, map(str, known), advised=advised)
            faults.append(Fault(pointer, "unknown_id", words))
    if known and not faults and set(known) <= set(names):
        faults.append(Fault("/without", "nobody_left", "Nobody is left. Name fewer people."))
    return tuple(faults)
