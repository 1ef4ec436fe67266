"""The nearest plan: caps are passed, and stock falls short, by as little as possible in all.

It is a diagnosis. Somebody reads from it how far the request is from a plan; nobody may go by it.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from math import ceil

from solver.model.assignment.draft import Draft
from solver.model.formulation.build_frame import rows_of, sort_rows
from solver.model.formulation.frame import Frame
from solver.model.formulation.redundant_losses import without_redundant_losses
from solver.model.infeasible.any_plan import any_plan
from solver.model.rows import LoadRow, LossRow, ReachRow, Row, SomeRideRow, StockRow
from solver.model.solvers.relaxation_refusals import least_excess, least_shortage
from solver.model.solvers.relaxation_rows import build_relaxation
from solver.outcome import Limits
from solver.progress import Watch

_SECONDS = 5.0
"""Most time for one question to the relaxation; less where less is left [s]."""

_STEPS = (0, 500, 2_000)
"""What is added to what divisible loads need, until whole units fit [g or mL]."""


def nearest_draft(frame: Frame, limits: Limits, watch: Watch) -> tuple[Frame, Draft] | None:
    """A frame with rows eased as little as may be, and a draft for it; None if none was found."""
    rows = rows_of(frame.world)
    over = least_excess(build_relaxation(frame, with_excess=True), seconds=_part(watch))
    eased = rows
    if over is None:
        relaxation = build_relaxation(frame, with_excess=True, with_shortage=True)
        short = least_shortage(relaxation, seconds=_part(watch))
        if not short:
            return None
        eased = _lowered(rows, dict(short))
        frame = without_redundant_losses(sort_rows(frame.world, eased))
        relaxation = build_relaxation(frame, with_excess=True)
        over = least_excess(relaxation, seconds=_part(watch)) or []
    more: dict[LoadRow, float] = defaultdict(float, over)
    for step in _STEPS:
        if watch.left() <= 0:
            return None
        raised = [_raised(row, more, step) if isinstance(row, LoadRow) else row for row in eased]
        wide = without_redundant_losses(sort_rows(frame.world, raised))
        found = any_plan(wide, limits, watch)
        if found.draft is not None:
            return wide, found.draft
    return None


def _part(watch: Watch) -> float:
    """Time for one question to the relaxation [s]."""
    return min(_SECONDS, watch.left())


def _raised(row: LoadRow, more: dict[LoadRow, float], step: int) -> LoadRow:
    """A row with room for what must pass it, wider still for whole units where it is tight."""
    if row not in more:
        return row
    return replace(row, cap=row.cap + ceil(1000 * more[row]) + step)


def _lowered(rows: list[Row], short: dict[Row, float]) -> list[Row]:
    """Rows that ask for no more than there can be."""
    return [
        replace(row, at_least=max(0, row.at_least - ceil(short[row] - 1e-6)))
        if isinstance(row, StockRow | ReachRow | SomeRideRow | LossRow) and row in short
        else row
        for row in rows
    ]
