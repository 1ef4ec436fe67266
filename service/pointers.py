"""Pointers that lead somewhere: each is cut back to what the document that was sent really has."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from service.errors import Fault


def resolved(faults: Iterable[Fault], document: object) -> tuple[Fault, ...]:
    """The faults with pointers that resolve; what is not there is named in the text instead."""
    return tuple(_resolved(fault, document) for fault in faults)


def _resolved(fault: Fault, document: object) -> Fault:
    steps = fault.pointer.split("/")[1:]
    found = _there(steps, document)
    if found == len(steps):
        return fault
    absent = "/".join(steps[found:])
    return replace(
        fault,
        pointer="".join(f"/{step}" for step in steps[:found]),
        detail=fault.detail if absent in fault.detail else f"{absent}: {fault.detail}",
    )


def _there(steps: list[str], document: object) -> int:
    """How many of the steps the document has."""
    here: Any = document
    for count, written in enumerate(steps):
        step = written.replace("~1", "/").replace("~0", "~")
        if isinstance(here, dict) and step in here:
            here = here[step]
        elif isinstance(here, list) and step.isdecimal() and int(step) < len(here):
            here = here[int(step)]
        else:
            return count
    return len(steps)
