"""Counts of fuel containers and bags that are too few for a variant, left out of it.

The base gives them for its own people and days. A variant with one person or one night more buys
more, so its count is as many as are needed. A count that the variant itself writes stays.
"""

from __future__ import annotations

from collections.abc import Sequence

from service.errors import Fault
from service.translate.read.edits.nodes import Node, at_pointer, said

_TOO_FEW = frozenset({"too_few_bags", "too_few_containers"})


def leave_out_too_few(root: Node, faults: Sequence[Fault], written_by: str) -> list[str]:
    """Take the counts that faults find too few out of a request, in place; says which.

    Nothing is done unless all faults are of this kind, and none of them is about a count that
    stands below `written_by`, the place of the variant. Pointers of faults are of the request.
    """
    found = [_holder_of(root, fault) for fault in faults]
    holders = [holder for holder in found if holder is not None]
    if len(holders) < len(found) or any(_is_own(one, name, written_by) for one, name in holders):
        return []
    told = []
    for holder, name in holders:
        if isinstance(holder.value, dict) and name in holder.value:
            given = holder.value.pop(name).value
            of = said(holder, "container_id") or f"bags of {said(holder, 'set_id')}"
            told.append(f"{of} {given} -> as many as needed")
    return told


def _holder_of(root: Node, fault: Fault) -> tuple[Node, str] | None:
    """The entry whose count is too few, and the name of the count; None for any other fault."""
    way, _, name = fault.pointer.rpartition("/")
    holder = at_pointer(root, way) if fault.code in _TOO_FEW else None
    known = holder is not None and isinstance(holder.value, dict) and name in holder.value
    return (holder, name) if known and holder is not None else None


def _is_own(holder: Node, name: str, written_by: str) -> bool:
    count = holder.value.get(name) if isinstance(holder.value, dict) else None
    return count is not None and count.origin.startswith(f"{written_by}/")
