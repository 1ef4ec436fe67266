"""What a request takes from the library, put into it before anything else is read of it.

Afterwards the request says all by itself. Each part that was put in remembers what stored thing it
is of. A fault in it points to the place where the caller named that thing, and says where in it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from pydantic import ValidationError

from api_schema.library_entry import EntryKind
from api_schema.library_use import EntryUse, LibraryUse
from service.errors import Fault
from service.translate.read.consequences import Consequences
from service.translate.read.edits.nodes import Node, grown, member, origin_of, plain
from service.translate.read.notes import pointer_to
from service.translate.read.wire_faults import wire_faults

MEMBER = "library"


@dataclass(frozen=True, slots=True)
class FoundEntry:
    """What a stored thing says, and the digest of that."""

    content: dict[str, object]
    digest: str


@dataclass(frozen=True, slots=True)
class TakenEntry:
    """A stored thing that was put into a request."""

    kind: EntryKind
    entry_id: str
    version: int
    digest: str


FindEntry = Callable[[EntryKind, str, int], FoundEntry | None]

_WHOLE: tuple[tuple[str, EntryKind], ...] = (
    ("route", "routes"),
    ("menu", "menus"),
    ("roster", "rosters"),
)
"""Parts that come whole: their member, in the request and in `library`, and their kind."""

_NEEDED = frozenset({"route", "roster"})
"""Parts without which nothing can be read. Where one is lost, what it would be is made up."""

_WORDS: dict[EntryKind, str] = {
    "routes": "route",
    "gear-lists": "gear list",
    "menus": "menu",
    "rosters": "roster",
}


@dataclass(frozen=True, slots=True)
class _Part:
    """A part that was put in: where its content begins, where it was named, and what it is."""

    begins: str
    named_at: str
    words: str


@dataclass(frozen=True, slots=True)
class Inlined:
    """What was put into a request, and what of it could not be."""

    taken: tuple[TakenEntry, ...] = ()
    faults: tuple[Fault, ...] = ()
    parts: tuple[_Part, ...] = ()
    lost: frozenset[str] = frozenset()
    """Members of `library` whose content the request does without, since it is not there."""

    def of_the_rest(self, faults: Iterable[Fault], *, under: str = "") -> tuple[Fault, ...]:
        """Faults of what was put together without those that follow from what is lost.

        The request stands `under` a pointer, empty where it is the whole body.
        """
        lost = [f"{under}/{name}" for name in _NEEDED & self.lost]
        menu = Consequences.of([("menu",)] if "menu" in self.lost else [])
        names_lost = bool(self.lost & {"menu", "gear_lists"})
        return tuple(
            fault
            for fault in faults
            if not any(f"{fault.pointer}/".startswith(f"{place}/") for place in lost)
            and not (names_lost and fault.code == "unknown_id")
            and not menu.has(replace(fault, pointer=fault.pointer.removeprefix(under)))
        )

    def as_sent(self, faults: Iterable[Fault]) -> tuple[Fault, ...]:
        """Faults with pointers that the caller can follow."""
        return tuple(self._as_sent(fault) for fault in faults)

    def _as_sent(self, fault: Fault) -> Fault:
        for part in self.parts:
            if f"{fault.pointer}/".startswith(f"{part.begins}/"):
                within = fault.pointer.removeprefix(part.begins)
                detail = f"{fault.detail} This is in the stored {part.words} at {within}."
                return replace(fault, pointer=part.named_at, detail=detail)
        return fault


def put_library_in(root: Node, find: FindEntry) -> Inlined:
    """Put what a request names of the library into its tree; gives what was taken, or faults."""
    named = member(root, MEMBER)
    if named is None or not isinstance(root.value, dict):
        return Inlined()
    if named.value is None:
        del root.value[MEMBER]
        return Inlined()
    try:
        wanted = LibraryUse.model_validate(plain(named))
    except ValidationError as error:
        faults = wire_faults(error, LibraryUse)
        del root.value[MEMBER]
        lost = _lose(root, named.value if isinstance(named.value, dict) else ())
        at_origin = (replace(fault, pointer=named.origin + fault.pointer) for fault in faults)
        return Inlined(faults=tuple(at_origin), lost=lost)
    del root.value[MEMBER]
    taking = _Taking(root.value, root.origin, find, [], [], [], set())
    for name, kind in _WHOLE:
        use = getattr(wanted, name)
        if use is not None:
            _take_whole(taking, name, kind, use, _named_at(named, name))
    for number, use in reversed(list(enumerate(wanted.gear_lists))):
        _take_gear(taking, use, _named_at(named, "gear_lists", number))
    lost = _lose(root, taking.lost)
    return Inlined(tuple(taking.taken), tuple(taking.faults), tuple(taking.parts), lost)


def _lose(root: Node, named: Iterable[str]) -> frozenset[str]:
    """Which parts the request does without; the needed ones are told as what cannot be read."""
    if not isinstance(root.value, dict):
        return frozenset()
    lost = {name for name in named if name not in root.value}
    for name in _NEEDED & lost:
        root.value[name] = Node(None, root.origin + pointer_to(name))
    return frozenset(lost)


def _named_at(named: Node, *way: str | int) -> str:
    """Where a version was named: by the patch that names another one, if there is one."""
    return origin_of(named, pointer_to(*way, "version")).removesuffix("/version")


@dataclass(frozen=True, slots=True)
class _Taking:
    """The members of the request that parts are put into, with what is noted on the way."""

    members: dict[str, Node]
    origin: str
    find: FindEntry
    taken: list[TakenEntry]
    faults: list[Fault]
    parts: list[_Part]
    lost: set[str]

    def content(self, kind: EntryKind, use: EntryUse, named_at: str) -> dict[str, Node] | None:
        """The members of a stored thing; None with a fault where there is none."""
        entry = self.find(kind, use.entry_id, use.version)
        if entry is None:
            words = f"There is no stored {_WORDS[kind]} with this id and version."
            self.faults.append(Fault(named_at, "unknown_id", words))
            return None
        self.taken.append(TakenEntry(kind, use.entry_id, use.version, entry.digest))
        begins = f"{named_at}/content"
        words = f"{_WORDS[kind]} {use.entry_id}, version {use.version},"
        self.parts.append(_Part(begins, named_at, words))
        return {
            name: grown(part, begins + pointer_to(name)) for name, part in entry.content.items()
        }


def _take_whole(taking: _Taking, name: str, kind: EntryKind, use: EntryUse, named_at: str) -> None:
    root = taking.members
    if name in root:
        words = f"The request has a {name} of its own. Leave one of the two out."
        taking.faults.append(Fault(named_at, "given_twice", words))
        return
    content = taking.content(kind, use, named_at)
    if content is None:
        taking.lost.add(name)
    else:
        root[name] = content[name]


def _take_gear(taking: _Taking, use: EntryUse, named_at: str) -> None:
    """Put a gear list before the items that are there, and its kits beside those that are."""
    root = taking.members
    content = taking.content("gear-lists", use, named_at)
    if content is None:
        taking.lost.add("gear_lists")
        return
    own = root.setdefault("gear", Node([], taking.origin + "/gear"))
    if isinstance(own.value, list):
        items = content["gear"].value
        own.value = [*(items if isinstance(items, list) else ()), *own.value]
    kits = root.setdefault("personal_kits", Node({}, taking.origin + "/personal_kits"))
    more = content["personal_kits"].value
    if isinstance(kits.value, dict) and isinstance(more, dict):
        for kit_id, kit in more.items():
            if kit_id in kits.value:
                words = f"The personal kit {kit_id} is given twice. Leave one of the two out."
                taking.faults.append(Fault(named_at, "given_twice", words))
            kits.value[kit_id] = kit
