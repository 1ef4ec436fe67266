"""One row on rides, and where the rows of a frame are kept once they are worked out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from solver.model.rows import Row


@dataclass(frozen=True, slots=True)
class FlowRow:
    """Σ coefficient × rides + constant ≥ 0; rides are (cargo, trip) pairs.

    `about` is the rule's row that it was made from, None where it only conserves units.
    """

    rule_id: str
    terms: tuple[tuple[tuple[int, int], int], ...]
    constant: int
    about: Row | None = None


Rides = Mapping[tuple[int, int], int]


@dataclass(slots=True)
class FlowRowCache:
    """The rows on rides of one frame; None until they were asked for the first time."""

    rows: tuple[FlowRow, ...] | None = None
