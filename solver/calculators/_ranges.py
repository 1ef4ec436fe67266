"""Refuses arguments outside the range that a model was made for.

Private to this folder: the calculators name their ranges, this module only compares and tells.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeVar

Value = TypeVar("Value")


# A range reads in order at each call: the name, the value, from, to, the unit.
def require_within(  # noqa: PLR0917
    name: str, value: float, low: float, high: float, unit: str, hint: str = ""
) -> None:
    """Raise ValueError unless low <= value <= high; a value that is not a number is refused too."""
    if not low <= value <= high:
        message = (
            f"{name}: {value:.10g} {unit} was given; allowed is {low:.10g} to {high:.10g} {unit}."
        )
        raise ValueError(f"{message} {hint}".rstrip())


def require_choice(name: str, value: str, choices: Mapping[str, Value]) -> Value:
    """The entry for a named choice; ValueError with the allowed names if there is none."""
    if value not in choices:
        allowed = ", ".join(sorted(choices))
        raise ValueError(f"{name}: {value!r} was given; allowed is one of: {allowed}.")
    return choices[value]
