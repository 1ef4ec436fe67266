"""A comparison read into the requests of its variants; a faulty variant keeps its faults."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any, Generic, TypeVar

from pydantic import ValidationError

from api_schema.comparison import ComparisonShape, VariantRequest
from service.errors import Fault, RequestFaults, ServiceProblem
from service.pointers import resolved
from service.translate.read.edits.bag_sizes import Eaters, pack_anew, people_by_menu
from service.translate.read.edits.library_parts import (
    FindEntry,
    Inlined,
    TakenEntry,
    put_library_in,
)
from service.translate.read.edits.merge_patch import merged
from service.translate.read.edits.named_edits import Editing, do_edit
from service.translate.read.edits.nodes import Node, grown, origin_of, plain
from service.translate.read.edits.optional_people import (
    ORIGIN,
    OptionalPeople,
    read_optional,
    take_along,
)
from service.translate.read.edits.too_few import leave_out_too_few
from service.translate.read.wire_faults import wire_faults

BASE_NAME = "base"
OrderT = TypeVar("OrderT")


@dataclass(frozen=True, slots=True)
class ReadVariant(Generic[OrderT]):
    """A variant: its request with what the edits did, or the faults that keep it from being one.

    Faults point into the comparison. `order` is what the reader of requests says of it.
    """

    name: str
    edits: tuple[str, ...]
    document: dict[str, object] | None
    faults: tuple[Fault, ...]
    order: OrderT | None = None
    taken: tuple[TakenEntry, ...] = ()


def read_comparison(
    document: dict[str, object],
    read_order: Callable[[dict[str, object]], OrderT],
    find: FindEntry = lambda *_: None,
) -> tuple[ReadVariant[OrderT], ...]:
    """The base and its variants; raises RequestFaults on a faulty shape or a faulty base.

    `read_order` reads one request, raising RequestFaults, or the problem too_much_work: that of a
    variant is a fault of its own, and the base's goes on. `find` looks into the library, whose
    parts are put in after the patch and before the edits.
    """
    shape, faults = _shape_of(document)
    names = [] if shape is None else [BASE_NAME, *(variant.name for variant in shape.variants)]
    root = grown(document.get("base"), "/base")
    if isinstance(root.value, dict):
        whole = Whole(root, put_library_in(root, find))
        try:
            base = _read(BASE_NAME, (), whole, "/base", read_order)
        except ServiceProblem:
            if not faults:
                raise
        else:
            faults += base.faults
    if shape is None or faults:
        raise RequestFaults(faults)
    written: Any = document
    people = {
        person.person_id: grown(written["people"][n], f"/people/{n}")
        for n, person in enumerate(shape.people)
    }
    comparing = Comparing(written, people, find, people_by_menu(root))
    optional = _optional(shape, root, people)
    variants = [
        _variant(number, variant, comparing, read_order)
        for number, variant in enumerate(shape.variants)
    ]
    if optional is not None:
        for coming in optional.choices():
            name = _unused(optional.name(coming), names)
            names.append(name)
            variants.append(_choice(name, (optional, coming), comparing, read_order))
    return (base, *(replace(one, faults=resolved(one.faults, written)) for one in variants))


def _shape_of(document: dict[str, object]) -> tuple[ComparisonShape | None, tuple[Fault, ...]]:
    """The comparison around its base, None where it has none; and what is wrong with that."""
    try:
        shape = ComparisonShape.model_validate(document)
    except ValidationError as error:
        return None, wire_faults(error, ComparisonShape)
    if not shape.variants and shape.optional_people is None:
        words = "Give variants, `optional_people`, or both."
        return shape, (Fault("/variants", "too_few", words),)
    names = [BASE_NAME, *(variant.name for variant in shape.variants)]
    return shape, tuple(
        Fault(f"/variants/{number - 1}/name", "duplicate_id", "Give each variant its own name.")
        for number, name in enumerate(names)
        if name in names[:number]
    )


@dataclass(frozen=True, slots=True)
class Comparing:
    """A comparison as it was written, the people it may add, and where stored things are found.

    `people_by_menu` is how many people of the base eat each menu.
    """

    written: Any
    people: Mapping[str, Node]
    find: FindEntry
    people_by_menu: Mapping[Eaters, int]


@dataclass(frozen=True, slots=True)
class Whole:
    """The tree of a request with what was put into it of the library."""

    root: Node
    inlined: Inlined


def _variant(
    number: int,
    variant: VariantRequest,
    comparing: Comparing,
    read_order: Callable[[dict[str, object]], OrderT],
) -> ReadVariant[OrderT]:
    """One variant: the base, then the patch, then what is of the library, then the edits."""
    origin = f"/variants/{number}"
    written = comparing.written
    root = grown(written["base"], "/base")
    if variant.patch is not None:
        root = merged(root, variant.patch, f"{origin}/patch")
    whole = Whole(root, put_library_in(root, comparing.find))
    if whole.inlined.faults:
        return _read(variant.name, (), whole, origin, read_order)
    told: list[str] = []
    for index, edit in enumerate(variant.edits):
        raw = written["variants"][number]["edits"][index]
        done = do_edit(edit, Editing(root, comparing.people, raw, f"{origin}/edits/{index}"))
        if isinstance(done, Fault):
            return ReadVariant(variant.name, tuple(told), None, whole.inlined.as_sent((done,)))
        told.append(done)
    told += pack_anew(root, comparing.people_by_menu)
    return _read(variant.name, tuple(told), whole, origin, read_order)


def _optional(
    shape: ComparisonShape, base: Node, people: Mapping[str, Node]
) -> OptionalPeople | None:
    """Who may come along; raises RequestFaults where that cannot be, which concerns no row."""
    if shape.optional_people is None:
        return None
    read = read_optional(shape.optional_people, base, people, others=len(shape.variants))
    if not isinstance(read, OptionalPeople):
        raise RequestFaults(read)
    return read


def _unused(name: str, names: list[str]) -> str:
    """The name, with a number where it is given already."""
    numbered = (f"{name} ({number})" for number in range(2, len(names) + 2))
    return name if name not in names else next(one for one in numbered if one not in names)


def _choice(
    name: str,
    choice: tuple[OptionalPeople, tuple[str, ...]],
    comparing: Comparing,
    read_order: Callable[[dict[str, object]], OrderT],
) -> ReadVariant[OrderT]:
    """The variant of one choice of people."""
    optional, coming = choice
    root = grown(comparing.written["base"], "/base")
    whole = Whole(root, put_library_in(root, comparing.find))
    edits = take_along(root, optional, coming, comparing.people)
    told = (*edits, *pack_anew(root, comparing.people_by_menu))
    return _read(name, told, whole, ORIGIN, read_order)


def _read(
    name: str,
    edits: tuple[str, ...],
    whole: Whole,
    origin: str,
    read_order: Callable[[dict[str, object]], OrderT],
) -> ReadVariant[OrderT]:
    """One request; a variant for which only counts of the base are too few takes what it needs."""
    root, inlined = whole.root, whole.inlined
    document = plain(root)
    if not isinstance(document, dict):
        fault = Fault(root.origin, "wrong_type", "The patch leaves no request: write an object.")
        return ReadVariant(name, edits, None, (fault,))
    try:
        order = read_order(document)
    except RequestFaults as error:
        if inlined.faults:
            rest = _as_written(root, inlined, inlined.of_the_rest(error.faults))
            return ReadVariant(name, edits, None, (*inlined.faults, *rest))
        more = () if name == BASE_NAME else leave_out_too_few(root, error.faults, origin)
        if more:
            return _read(name, (*edits, *more), whole, origin, read_order)
        return ReadVariant(name, edits, None, _as_written(root, inlined, error.faults))
    except ServiceProblem as problem:
        if problem.code == "too_much_work" and inlined.faults:
            return ReadVariant(name, edits, None, inlined.faults)
        if problem.code != "too_much_work" or name == BASE_NAME:
            raise
        fault = Fault(origin, problem.code, problem.detail or "")
        return ReadVariant(name, edits, None, (fault,))
    if inlined.faults:
        return ReadVariant(name, edits, None, inlined.faults)
    return ReadVariant(name, edits, document, (), order, inlined.taken)


def _as_written(root: Node, inlined: Inlined, faults: tuple[Fault, ...]) -> tuple[Fault, ...]:
    """Faults of a request that was put together, each where the caller wrote it."""
    return inlined.as_sent(replace(f, pointer=origin_of(root, f.pointer)) for f in faults)
