"""What the table of plans says of the service as a whole, for those who run it."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from sqlalchemy import ColumnElement, Connection, Engine, Select, SQLColumnExpression, func, select

from service.storage.clock import NOW_MS, ONCE_NOW_MS
from service.storage.database import reading
from service.storage.plan_ids import PLAN, STRESS_TEST
from service.storage.tables import PlanRow

LOOKED_BACK_MINUTES = 15
_MS_PER_MINUTE = 60_000
_MS_PER_SECOND = 1000
_MOST_READ = 1000


@dataclass(frozen=True, slots=True)
class StressFigures:
    """Stress tests that wait and run, and how many of each outcome ended lately."""

    queued: int = 0
    running: int = 0
    ended: Mapping[str, int] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class QueueFigures:
    """Plans that wait and run, and what ended lately; stress tests apart.

    `ended` counts outcomes of the last minutes; `solve_seconds` are the times of their solves.
    `oldest_seconds` is the age of the oldest that waits, of either kind: both wait in one queue.
    """

    queued: int
    running: int
    oldest_seconds: float
    ended: Mapping[str, int]
    solve_seconds: tuple[float, ...]
    last_progress: tuple[bytes, ...]
    stress_tests: StressFigures = StressFigures()


def read_queue_figures(engine: Engine) -> QueueFigures:
    """The figures of this moment, over all tenants; of each kind the newest thousand that ended."""
    with reading(engine) as connection:
        plans, tests = _open(connection, PLAN), _open(connection, STRESS_TEST)
        rows = connection.execute(
            _ended(
                PLAN,
                PlanRow.outcome_kind,
                PlanRow.finished_at_ms - PlanRow.started_at_ms,
                PlanRow.progress_document,
            )
        ).all()
        tested = connection.execute(_ended(STRESS_TEST, PlanRow.outcome_kind)).scalars().all()
    return QueueFigures(
        queued=plans.queued,
        running=plans.running,
        oldest_seconds=max(plans.oldest_seconds, tests.oldest_seconds),
        ended=Counter(str(row[0]) for row in rows),
        solve_seconds=tuple(row[1] / _MS_PER_SECOND for row in rows if row[1] is not None),
        last_progress=tuple(row[2] for row in rows if row[2] is not None),
        stress_tests=StressFigures(tests.queued, tests.running, Counter(map(str, tested))),
    )


@dataclass(frozen=True, slots=True)
class _Open:
    """How many of a kind wait and run, and the age of the oldest that waits [s]."""

    queued: int
    running: int
    oldest_seconds: float


def _open(connection: Connection, kind: str) -> _Open:
    query = (
        select(PlanRow.state, func.count(), func.min(PlanRow.created_at_ms), NOW_MS)
        .where(PlanRow.state.in_(("queued", "running")), _is_of(kind))
        .group_by(PlanRow.state)
    )
    found = {row[0]: row for row in connection.execute(query)}
    waiting = found.get("queued")
    return _Open(
        queued=waiting[1] if waiting else 0,
        running=found["running"][1] if "running" in found else 0,
        oldest_seconds=(waiting[3] - waiting[2]) / _MS_PER_SECOND if waiting else 0.0,
    )


def _ended(kind: str, *columns: SQLColumnExpression[Any]) -> Select[Any]:
    """What of a kind ended lately, the newest first."""
    return (
        select(*columns)
        .where(
            PlanRow.finished_at_ms >= ONCE_NOW_MS - LOOKED_BACK_MINUTES * _MS_PER_MINUTE,
            PlanRow.outcome_kind.is_not(None),
            _is_of(kind),
        )
        .order_by(PlanRow.finished_at_ms.desc())
        .limit(_MOST_READ)
    )


def _is_of(kind: str) -> ColumnElement[bool]:
    """Whether a row is of a kind, which its name begins with."""
    return PlanRow.plan_id.startswith(f"{kind}_", autoescape=True)
