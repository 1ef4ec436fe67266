"""The figures of the table of plans and of open streams in the text format of Prometheus."""

import json
from collections.abc import Iterator

from service.storage.queue_figures import LOOKED_BACK_MINUTES, QueueFigures

_LATELY = f"of the plans that ended in the last {LOOKED_BACK_MINUTES} minutes"


def queue_lines(figures: QueueFigures) -> Iterator[str]:
    """One figure after another, each with what it means."""
    yield from _gauge("plans_queued", "Plans that wait to be solved.", figures.queued)
    yield from _gauge("plans_running", "Plans that are being solved.", figures.running)
    yield from _gauge(
        "queue_age_seconds", "Time that the oldest plan has waited.", figures.oldest_seconds
    )
    name = "haulwright_plans_ended_lately"
    yield f"# HELP {name} Outcomes {_LATELY}."
    yield f"# TYPE {name} gauge"
    for kind, count in sorted(figures.ended.items()):
        yield f'{name}{{outcome="{kind}"}} {count}'
    seconds = figures.solve_seconds
    yield from _gauge("solve_seconds_mean", f"Mean solve time {_LATELY}.", _mean(seconds))
    yield from _gauge("solve_seconds_max", f"Longest solve {_LATELY}.", max(seconds, default=0.0))
    gaps = tuple(gap for told in figures.last_progress if (gap := gap_of(told)) is not None)
    yield from _gauge(
        "gap_mean", f"Mean of (peak - bound) / peak, as last reported, {_LATELY}.", _mean(gaps)
    )


def stream_lines(opened: int) -> Iterator[str]:
    """How many streams of events this process has open."""
    yield from _gauge("event_streams", "Streams of events that are open.", opened)


def gap_of(progress: bytes) -> float | None:
    """How far the best plan may be from the best there is, as a share of its peak [-].

    None while there is no plan, or where its peak is nothing.
    """
    told = json.loads(progress)
    peak = told["peak"]
    return max(0.0, (peak - told["bound"]) / peak) if peak else None


def _mean(values: tuple[float, ...]) -> float:
    return sum(values) / len(values) if values else 0.0


def _gauge(name: str, words: str, value: float) -> Iterator[str]:
    yield f"# HELP haulwright_{name} {words}"
    yield f"# TYPE haulwright_{name} gauge"
    yield f"haulwright_{name} {value:g}"
