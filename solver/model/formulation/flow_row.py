"""One row on rides, and where the rows of a frame are kept once they are worked out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from solver.model.rows import LossRow, Row


@dataclass(frozen=True, slots=True)
class FlowRow:
    """Σ coefficient × rides + constant ≥ 0; rides are (cargo, trip) pairs.

    `about` is the rule's row that it was made from, None where it only conserves units; then
    `stands` is the place and the last state of the stock that it is about.
    """

    rule_id: str
    terms: tuple[tuple[tuple[int, int], int], ...]
    constant: int
    about: Row | None = None
    stands: tuple[str, int] | None = None


Rides = Mapping[tuple[int, int], int]


Move = tuple[int, tuple[int, int], int]
"""An event, a ride (cargo, trip), and +1 where it arrives or −1 where it leaves."""


@dataclass(slots=True)
class FlowRowCache:
    """The rows on rides of one frame; None until they were asked for the first time.

    `moves` are the rides of a cargo to and from a place in the order of their events, each with
    its sign, `left` what is left after the loss of one carrier by loss row.
    """

    rows: tuple[FlowRow, ...] | None = None
    moves: dict[tuple[int, str], tuple[Move, ...]] = field(default_factory=dict)
    left: dict[LossRow, FlowRow] = field(default_factory=dict)
