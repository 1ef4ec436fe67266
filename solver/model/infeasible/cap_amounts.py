"""How much more one cap, or several together, would have to allow: the least by the relaxation.

Every load may pass its cap, by no more than some growth times what its cap grows by. Each growth
is made least alone, with all others held at nothing. Loads are divisible, so the amounts are no
more than what is really needed.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from solver.model.formulation.frame import Frame
from solver.model.rows import LoadRow
from solver.model.rules import BUILDERS
from solver.model.solvers.relaxation_question import effort_of
from solver.model.solvers.relaxation_rows import build_relaxation
from solver.problem import Problem

_SECONDS = 5.0
"""Time for one amount [s]."""

_MOST = 1_000.0
"""No cap grows by more [kg or L]."""

PROBE = 1_000
"""The growth at which a changed problem is looked at [g or mL]."""

_CAP_RULES = frozenset(
    {
        "pack_cap_held",
        "pack_volume_held",
        "sled_cap_held",
        "sled_limit_held",
        "sled_volume_held",
        "total_cap_held",
        "load_limit_held",
        "first_load_within_plan",
    }
)

Growth = dict[int, float]
"""By position of a load row in the frame, what its cap grows by when a change grows by 1."""


def growth_of(frame: Frame, probed: Problem) -> Growth:
    """What each cap gains by a change, from the problem with `PROBE` more of it."""
    world = replace(frame.world, problem=probed)
    caps = {
        _key(row): row.cap
        for rule_id, build in BUILDERS
        if rule_id in _CAP_RULES and probed.must_keep(rule_id)
        for row in build(world)
        if isinstance(row, LoadRow)
    }
    found = {}
    for position, row in enumerate(_rows(frame)):
        more = caps.get(_key(row), row.cap) - row.cap
        if more > 0:
            found[position] = more / PROBE
    return found


class CapAmounts:
    """The relaxation in which caps may grow in some ways."""

    def __init__(self, frame: Frame, growths: Sequence[Growth]) -> None:
        self._relaxation = build_relaxation(frame, with_excess=True)
        position_of = {row: position for position, row in enumerate(_rows(frame))}
        writer = self._relaxation.writer
        self._columns = [writer.column(_MOST) for _ in growths]
        for row, over in self._relaxation.excess or ():
            grows = [
                (column, growth[position_of[row]])
                for column, growth in zip(self._columns, growths, strict=True)
                if position_of[row] in growth
            ]
            writer.row([*grows, (over, -1.0)], lower=0.0)
        self._costs = np.zeros(self._relaxation.program.columns)
        self._costs[self._columns] = 1.0

    def least(self, *numbers: int) -> tuple[int, ...] | None:
        """The least of the growths of these numbers at which divisible loads fit [g or mL].

        All others are held at nothing. None where no amount helps or the time ended.
        """
        if self._relaxation.impossible is not None:
            return None
        chosen = [self._columns[number] for number in numbers]
        for column in self._columns:
            self._relaxation.simplex.limit(column, _MOST if column in chosen else 0.0)
        effort = effort_of(self._relaxation, _SECONDS)
        values = self._relaxation.simplex.least(self._costs, effort).values
        if values is None:
            return None
        return tuple(math.ceil(1000 * float(values[column]) - 1e-3) for column in chosen)


def _rows(frame: Frame) -> list[LoadRow]:
    return [row for rows in frame.load_rows for row in rows]


def _key(row: LoadRow) -> tuple[str, int, str, bool, bool, bool, bool]:
    return (
        row.rule_id,
        row.trip,
        row.person_id,
        row.of_mass,
        row.in_pack,
        row.in_sled,
        row.in_fraction,
    )
