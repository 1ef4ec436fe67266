"""Rates that were measured, in the form in which the next request takes them."""

from __future__ import annotations

import copy
import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from api_schema.report_answer import RateAnswer
from service.translate.read.report_facts import ReadReport

FEW_NIGHTS, FEW_TRIPS = 5, 3
"""Rates from fewer say little (common practice, no source)."""


@dataclass(slots=True)
class Rates:
    """The rates found so far, and what has no place in a request."""

    report: ReadReport
    found: list[RateAnswer] = field(default_factory=list)
    not_given: list[str] = field(default_factory=list)

    def add(
        self,
        pointer: str,
        value: str | float,
        planned: str | float | None,
        times: float | None,
        *,
        based_on: str,
        says_little: bool,
        why: str,
    ) -> None:
        """Take down a rate."""
        self.found.append(
            RateAnswer(
                pointer=pointer,
                value=value,
                planned=planned,
                ratio=None if times is None else round(times, 4),
                based_on=based_on,
                says_little=says_little,
                why=why,
            )
        )


def next_request(rates: Sequence[RateAnswer], request: dict[str, Any]) -> dict[str, Any]:
    """The members of the request that the rates are in, as a merge patch: lists are whole."""
    patch: dict[str, Any] = {}
    for rate in rates:
        here: Any = patch
        there: Any = request
        *way, last = rate.pointer.split("/")[1:]
        for step in way:
            there = there[int(step)] if isinstance(there, list) else there.get(step, {})
            if isinstance(here, list):
                here = here[int(step)]
            else:
                here = here.setdefault(step, copy.deepcopy(there) if _is_list(there) else {})
        here[last] = rate.value
    return patch


def _is_list(part: object) -> bool:
    return isinstance(part, list)


def upwards(amount: float, unit: str) -> str:
    """A quantity of a request, rounded up to a whole unit."""
    return f"{math.ceil(amount - 1e-9)} {unit}"
