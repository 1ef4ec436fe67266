"""States, times and shares in words that a person reads."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from types import MappingProxyType

from api_schema.plan_resource import PlanSummaryAnswer

_OUTCOMES: Mapping[str, str] = MappingProxyType(
    {
        "solved": "solved",
        "infeasible": "no plan can exist",
        "no_plan_in_time": "no plan in time",
        "failed": "failed",
    }
)
_STATES: Mapping[str, str] = MappingProxyType(
    {"queued": "waits", "running": "is being solved", "cancelled": "cancelled"}
)


def state_words(summary: PlanSummaryAnswer) -> str:
    """The state of a plan, or what came of it."""
    if summary.outcome_kind is not None:
        return _OUTCOMES[summary.outcome_kind]
    return _STATES.get(summary.state, summary.state)


def moment_words(moment: dt.datetime | None) -> str:
    """A time to the minute, in UTC."""
    return "–" if moment is None else f"{moment:%Y-%m-%d %H:%M} UTC"


def solve_words(summary: PlanSummaryAnswer) -> str:
    """How long the last attempt took."""
    if summary.started_at is None or summary.finished_at is None:
        return "–"
    return f"{(summary.finished_at - summary.started_at).total_seconds():.0f} s"


def percent(share: float | None, decimals: int = 1) -> str:
    """A share of a cap in per cent."""
    return "–" if share is None else f"{100 * share:.{decimals}f} %"
