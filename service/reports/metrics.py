"""The figures of the table of plans and of open streams in the text format of Prometheus."""

import json
import math
from collections.abc import Iterator, Mapping

from service.storage.queue_figures import LOOKED_BACK_MINUTES, QueueFigures

_LATELY = f"of the plans that ended in the last {LOOKED_BACK_MINUTES} minutes"


def queue_lines(figures: QueueFigures) -> Iterator[str]:
    """One figure after another, each with what it means."""
    yield from _gauge("plans_queued", "Plans that wait to be solved.", figures.queued)
    yield from _gauge("plans_running", "Plans that are being solved.", figures.running)
    tests = figures.stress_tests
    yield from _gauge("stress_tests_queued", "Stress tests that wait.", tests.queued)
    yield from _gauge("stress_tests_running", "Stress tests that run.", tests.running)
    yield from _gauge(
        "queue_age_seconds",
        "Time that the oldest plan or stress test has waited.",
        figures.oldest_seconds,
    )
    yield from _outcomes("plans", f"Outcomes {_LATELY}.", figures.ended)
    words = f"Outcomes of the stress tests that ended in the last {LOOKED_BACK_MINUTES} minutes."
    yield from _outcomes("stress_tests", words, tests.ended)
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

    None while there is no plan, where its peak is nothing, and where none of this can be read.
    """
    try:
        told = json.loads(progress, parse_int=float)
    except (ValueError, RecursionError):
        return None
    if not isinstance(told, dict):
        return None
    peak, bound = told.get("peak"), told.get("bound")
    if not (isinstance(peak, float) and isinstance(bound, float)) or not peak:
        return None
    gap = (peak - bound) / peak
    return max(0.0, gap) if math.isfinite(gap) else None


def _mean(values: tuple[float, ...]) -> float:
    return sum(values) / len(values) if values else 0.0


def _outcomes(kind: str, words: str, counted: Mapping[str, int]) -> Iterator[str]:
    name = f"haulwright_{kind}_ended_lately"
    yield f"# HELP {name} {words}"
    yield f"# TYPE {name} gauge"
    for outcome, count in sorted(counted.items()):
        yield f'{name}{{outcome="{outcome}"}} {count}'


def _gauge(name: str, words: str, value: float) -> Iterator[str]:
    yield f"# HELP haulwright_{name} {words}"
    yield f"# TYPE haulwright_{name} gauge"
    yield f"haulwright_{name} {value:g}"
