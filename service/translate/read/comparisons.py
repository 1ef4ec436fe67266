"""A comparison read into the requests of its variants; a faulty variant keeps its faults."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any, Generic, TypeVar

from pydantic import ValidationError

from api_schema.comparison import ComparisonShape, VariantRequest
from service.errors import Fault, RequestFaults, ServiceProblem
from service.translate.read.edits.merge_patch import merged
from service.translate.read.edits.named_edits import Editing, do_edit
from service.translate.read.edits.nodes import Node, grown, origin_of, plain
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


def read_comparison(
    document: dict[str, object], read_order: Callable[[dict[str, object]], OrderT]
) -> tuple[ReadVariant[OrderT], ...]:
    """The base and its variants; raises RequestFaults on a faulty shape or a faulty base.

    `read_order` reads one request, raising RequestFaults, or the problem too_much_work: that of a
    variant is a fault of its own, and the base's goes on.
    """
    try:
        shape = ComparisonShape.model_validate(document)
    except ValidationError as error:
        raise RequestFaults(wire_faults(error, ComparisonShape)) from None
    names = [BASE_NAME, *(variant.name for variant in shape.variants)]
    doubled = tuple(
        Fault(f"/variants/{number - 1}/name", "duplicate_id", "Give each variant its own name.")
        for number, name in enumerate(names)
        if name in names[:number]
    )
    if doubled:
        raise RequestFaults(doubled)
    base = _read(BASE_NAME, (), grown(shape.base, "/base"), "/base", read_order)
    if base.faults:
        raise RequestFaults(base.faults)
    written: Any = document
    people = {
        person.person_id: grown(written["people"][n], f"/people/{n}")
        for n, person in enumerate(shape.people)
    }
    variants = (
        _variant(number, variant, written, people, read_order)
        for number, variant in enumerate(shape.variants)
    )
    return (base, *variants)


def _variant(
    number: int,
    variant: VariantRequest,
    written: Any,  # noqa: ANN401 - the comparison as it was written
    people: Mapping[str, Node],
    read_order: Callable[[dict[str, object]], OrderT],
) -> ReadVariant[OrderT]:
    """One variant: the base, then the patch, then the edits in order."""
    origin = f"/variants/{number}"
    root = grown(written["base"], "/base")
    if variant.patch is not None:
        root = merged(root, variant.patch, f"{origin}/patch")
    told: list[str] = []
    for index, edit in enumerate(variant.edits):
        raw = written["variants"][number]["edits"][index]
        done = do_edit(edit, Editing(root, people, raw, f"{origin}/edits/{index}"))
        if isinstance(done, Fault):
            return ReadVariant(variant.name, tuple(told), None, (done,))
        told.append(done)
    return _read(variant.name, tuple(told), root, origin, read_order)


def _read(
    name: str,
    edits: tuple[str, ...],
    root: Node,
    origin: str,
    read_order: Callable[[dict[str, object]], OrderT],
) -> ReadVariant[OrderT]:
    document = plain(root)
    if not isinstance(document, dict):
        fault = Fault(root.origin, "wrong_type", "The patch leaves no request: write an object.")
        return ReadVariant(name, edits, None, (fault,))
    try:
        order = read_order(document)
    except RequestFaults as error:
        faults = tuple(replace(f, pointer=origin_of(root, f.pointer)) for f in error.faults)
        return ReadVariant(name, edits, None, faults)
    except ServiceProblem as problem:
        if problem.code != "too_much_work" or name == BASE_NAME:
            raise
        fault = Fault(origin, problem.code, problem.detail or "")
        return ReadVariant(name, edits, None, (fault,))
    return ReadVariant(name, edits, document, (), order)
