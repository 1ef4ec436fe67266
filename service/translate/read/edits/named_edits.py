"""Named edits: one change of a request for each, found by id, told in words."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType

from api_schema.named_edit import (
    AddEdit,
    CalendarEdit,
    CapEdit,
    CountEdit,
    NamedEdit,
    ReserveEdit,
    SledEdit,
    StartDateEdit,
    WithoutEdit,
)
from service.errors import Fault
from service.translate.read import quantities
from service.translate.read.edits.nodes import (
    Node,
    entries,
    grown,
    keep,
    listed,
    member,
    plain,
    said,
)
from service.translate.read.near_names import unknown_id_words


@dataclass(frozen=True, slots=True)
class Editing:
    """A tree that is edited in place, with the people who may be added, by id.

    `written` is the edit as the caller wrote it, and `origin` where it stands.
    """

    root: Node
    people: Mapping[str, Node]
    written: Mapping[str, object]
    origin: str

    def fault(self, field: str, what: str, known: list[object]) -> Fault:
        """The fault of an id that is not there."""
        words = unknown_id_words(what, str(self.written.get(field)), map(str, known))
        return Fault(f"{self.origin}/{field}", "unknown_id", words)


def do_edit(edit: NamedEdit, at: Editing) -> str | Fault:
    """Do one edit; gives what it did, in words, or why it cannot be done."""
    if not isinstance(at.root.value, dict):
        return Fault(at.origin, "wrong_type", "There is no request to edit.")
    return _DOERS[edit.edit](edit, at)


def _without(edit: WithoutEdit, at: Editing) -> str | Fault:
    known = [said(person, "person_id") for person in entries(at.root, "roster")]
    gone = [one.value for one in entries(at.root, "without")]
    if edit.person_id not in known or edit.person_id in gone:
        return at.fault("person_id", "person", [one for one in known if one not in gone])
    _listed(at, "without").append(Node(edit.person_id, f"{at.origin}/person_id"))
    return f"roster {len(known) - len(gone)} -> {len(known) - len(gone) - 1}"


def _add(edit: AddEdit, at: Editing) -> str | Fault:
    known = [said(person, "person_id") for person in entries(at.root, "roster")]
    if edit.person_id not in at.people:
        return at.fault("person_id", "person to add", list(at.people))
    if edit.person_id in known:
        return Fault(
            f"{at.origin}/person_id", "duplicate_id", "This person is on the roster already."
        )
    new = at.people[edit.person_id]
    _listed(at, "roster").append(grown(plain(new), new.origin))
    gone = len(entries(at.root, "without"))
    return f"roster {len(known) - gone} -> {len(known) - gone + 1}"


def _cap(edit: CapEdit, at: Editing) -> str | Fault:
    roster = entries(at.root, "roster")
    person = next((p for p in roster if said(p, "person_id") == edit.person_id), None)
    if person is None or not isinstance(person.value, dict):
        return at.fault("person_id", "person", [said(p, "person_id") for p in roster])
    told = []
    for field in ("pack_cap", "sled_cap", "total_cap"):
        new = at.written.get(field)
        if isinstance(new, str):
            told.append(f"{field} {said(person, field) or 'none'} -> {new}")
            if field == "pack_cap":
                _keep_shares(person, said(person, field))
            person.value[field] = Node(new, f"{at.origin}/{field}")
    if not told:
        return Fault(at.origin, "missing", "Give pack_cap, sled_cap or total_cap.")
    return f"{edit.person_id}: {', '.join(told)}"


def _keep_shares(person: Node, before: object) -> None:
    """Write pack caps by mode that are masses as shares of the pack cap before."""
    caps = member(person, "pack_caps")
    if caps is None or not isinstance(caps.value, dict) or not _is_mass(before):
        return
    for cap in caps.value.values():
        if _is_mass(cap.value):
            share = quantities.exactly(str(cap.value)) / quantities.exactly(str(before)) * 100
            cap.value = f"{share.quantize(Decimal('0.000001')).normalize():f} %"


def _is_mass(text: object) -> bool:
    unit = text.partition(" ")[2] if isinstance(text, str) else ""
    return unit in {"g", "kg", "lb", "oz"} and quantities.exactly(str(text)) > 0


def _count(edit: CountEdit, at: Editing) -> str | Fault:
    gear = entries(at.root, "gear")
    item = next((one for one in gear if said(one, "item_id") == edit.item_id), None)
    if item is None or not isinstance(item.value, dict):
        return at.fault("item_id", "item", [said(one, "item_id") for one in gear])
    before = said(item, "count") or 1
    if edit.count == 0:
        keep(at.root, "gear", [one for one in gear if one is not item])
    else:
        item.value["count"] = Node(edit.count, f"{at.origin}/count")
    return f"{edit.item_id} {before} -> {edit.count}"


def _reserve(edit: ReserveEdit, at: Editing) -> str | Fault:
    places = entries(at.root, "route", "places")
    place = next((p for p in places if said(p, "place_id") == edit.place), None)
    if place is None or not isinstance(place.value, dict):
        return at.fault("place", "place", [said(p, "place_id") for p in places])
    reserves = entries(at.root, "reserves")
    same = [r for r in reserves if _is_reserve(r, edit)]
    storm = edit.kind == "storm"
    before = [said(r, "nights") for r in same]
    if storm:
        before.append(said(place, "storm_nights"))
        place.value.pop("storm_nights", None)
    keep(at.root, "reserves", [r for r in reserves if r not in same])
    if edit.nights and storm:
        place.value["storm_nights"] = Node(edit.nights, f"{at.origin}/nights")
    elif edit.nights:
        new = {"place": edit.place, "kind": edit.kind, "nights": edit.nights}
        if same and (people := said(same[0], "people")) is not None:
            new["people"] = people if isinstance(people, int) else 1
        _listed(at, "reserves").append(grown(new, at.origin))
    held = sum(n for n in before if isinstance(n, int))
    return f"{edit.kind} reserve at {edit.place} {held} -> {edit.nights} nights"


def _is_reserve(reserve: Node, edit: ReserveEdit) -> bool:
    kind = said(reserve, "kind") or "storm"
    return (said(reserve, "place"), kind) == (edit.place, edit.kind)


def _calendar(edit: CalendarEdit, at: Editing) -> str:
    return _replace(at, "calendar", f"{len(edit.calendar)} days")


def _start_date(edit: StartDateEdit, at: Editing) -> str:
    return _replace(at, "start_date", edit.start_date.isoformat())


def _replace(at: Editing, field: str, words: str) -> str:
    before = member(at.root, field)
    old = None if before is None else plain(before)
    told = f"{len(old)} days" if isinstance(old, list) else str(old or "none")
    if isinstance(at.root.value, dict):
        at.root.value[field] = grown(at.written[field], f"{at.origin}/{field}")
    return f"{field.replace('_', ' ')} {told} -> {words}"


def _sled(edit: SledEdit, at: Editing) -> str | Fault:
    if member(at.root, "sleds") is None:
        return Fault(
            at.origin,
            "missing",
            "The request lists no sleds: everybody with a sled cap hauls a generic one. List the "
            "sleds in the base first.",
        )
    sleds = entries(at.root, "sleds")
    others = [sled for sled in sleds if said(sled, "sled_id") != edit.sled_id]
    if edit.sled is None and len(others) == len(sleds):
        return at.fault("sled_id", "sled", [said(sled, "sled_id") for sled in sleds])
    if edit.sled is not None and edit.sled.sled_id != edit.sled_id:
        return Fault(f"{at.origin}/sled_id", "other_id", "Both sled_id must be the same.")
    if edit.sled is not None:
        others.append(grown(at.written["sled"], f"{at.origin}/sled"))
    listed = _listed(at, "sleds")
    listed[:] = others
    return f"sleds {len(sleds)} -> {len(others)}"


def _listed(at: Editing, field: str) -> list[Node]:
    return listed(at.root, field, at.origin)


_DOERS: Mapping[str, Callable[..., str | Fault]] = MappingProxyType(
    {
        "without": _without,
        "add": _add,
        "cap": _cap,
        "count": _count,
        "reserve": _reserve,
        "calendar": _calendar,
        "sled": _sled,
        "start_date": _start_date,
    }
)
