"""Pointers that lead somewhere: each is cut back to what the document that was sent really has."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from service.errors import Fault
from service.translate.read.notes import pointer_to


def resolved(faults: Iterable[Fault], document: dict[str, object]) -> tuple[Fault, ...]:
    """The faults with pointers that resolve; what is not there is named in the text instead."""
    return tuple(_resolved(fault, document) for fault in faults)


def _resolved(fault: Fault, document: dict[str, object]) -> Fault:
    steps = [_unescaped(step) for step in fault.pointer.split("/")[1:]]
    found = _there(steps, document)
    if found == len(steps):
        return fault
    absent = pointer_to(*steps[found:])[1:]
    return Fault(
        pointer_to(*steps[:found]),
        fault.code,
        fault.detail if absent in fault.detail else f"{absent}: {fault.detail}",
    )


def _there(steps: list[str], document: dict[str, object]) -> int:
    """How many of the steps the document has."""
    here: Any = document
    for count, step in enumerate(steps):
        if isinstance(here, dict) and step in here:
            here = here[step]
        elif isinstance(here, list) and step.isdecimal() and int(step) < len(here):
            here = here[int(step)]
        else:
            return count
    return len(steps)


def _unescaped(step: str) -> str:
    return step.replace("~1", "/").replace("~0", "~")
