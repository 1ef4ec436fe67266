"""What the table of plans says of the service as a whole, for those who run it."""

from collections import Counter
from dataclasses import dataclass

from sqlalchemy import Engine, func, select

from service.storage.clock import NOW_MS, ONCE_NOW_MS
from service.storage.database import reading
from service.storage.tables import PlanRow

LOOKED_BACK_MINUTES = 15
_MS_PER_MINUTE = 60_000
_MS_PER_SECOND = 1000
_MOST_READ = 1000


@dataclass(frozen=True, slots=True)
class QueueFigures:
    """Plans that wait and run, the age of the oldest that waits [s], and what ended lately.

    `ended` counts outcomes of the last minutes; `solve_seconds` are the times of their solves.
    """

    queued: int
    running: int
    oldest_seconds: float
    ended: dict[str, int]
    solve_seconds: tuple[float, ...]
    last_progress: tuple[bytes, ...]


def read_queue_figures(engine: Engine) -> QueueFigures:
    """The figures of this moment, over all tenants; the newest thousand that ended at most."""
    open_plans = (
        select(PlanRow.state, func.count(), func.min(PlanRow.created_at_ms), NOW_MS)
        .where(PlanRow.state.in_(("queued", "running")))
        .group_by(PlanRow.state)
    )
    ended = (
        select(
            PlanRow.outcome_kind,
            PlanRow.finished_at_ms - PlanRow.started_at_ms,
            PlanRow.progress_document,
        )
        .where(
            PlanRow.finished_at_ms >= ONCE_NOW_MS - LOOKED_BACK_MINUTES * _MS_PER_MINUTE,
            PlanRow.outcome_kind.is_not(None),
        )
        .order_by(PlanRow.finished_at_ms.desc())
        .limit(_MOST_READ)
    )
    with reading(engine) as connection:
        found = {row[0]: row for row in connection.execute(open_plans)}
        rows = connection.execute(ended).all()
    waiting = found.get("queued")
    return QueueFigures(
        queued=waiting[1] if waiting else 0,
        running=found["running"][1] if "running" in found else 0,
        oldest_seconds=(waiting[3] - waiting[2]) / _MS_PER_SECOND if waiting else 0.0,
        ended=dict(Counter(str(row[0]) for row in rows)),
        solve_seconds=tuple(row[1] / _MS_PER_SECOND for row in rows if row[1] is not None),
        last_progress=tuple(row[2] for row in rows if row[2] is not None),
    )
