"""The trade-off of calendars: the least peak load for each number of days, and what is proven."""

from __future__ import annotations

from collections.abc import Sequence

from service.pictures.chart import Series, axes, frame_for, named_lines
from service.pictures.svg import Picture

_HEIGHT = 280.0
_AROUND = 5.0
"""Room below the lowest value [% of a cap]."""

CalendarPoint = tuple[int, float, float]
"""Days, the least peak of at most as many, and what no calendar is below [share of a cap]."""


def calendars_picture(points: Sequence[CalendarPoint], *, width: float) -> Picture:
    """Lines of the peaks found and of the lower bounds; each point has more days than the last."""
    found = Series("found", tuple((days, 100 * peak) for days, peak, _ in points))
    proven = Series("lower bound", tuple((days, 100 * bound) for days, _, bound in points))
    least = min(100 * bound for _, _, bound in points) - _AROUND
    series = (found, proven)
    frame = frame_for(series, width=width, height=_HEIGHT, least=max(0.0, least // 5 * 5))
    drawn = axes(frame, x_name="days", y_name="Peak load [% of its cap]")
    lines = named_lines(frame, series)
    return Picture(
        "calendars",
        "Days against the peak load",
        _finding(points),
        width,
        _HEIGHT,
        drawn + lines,
    )


def _finding(points: Sequence[CalendarPoint]) -> str:
    """The ends of the curve in words, and how much is not proven."""
    (few, high, _), (many, low, _) = points[0], points[-1]
    gap = max(peak - bound for _, peak, bound in points)
    proven = f"No calendar within the rules is lower by more than {100 * gap:.1f} points."
    if len(points) == 1:
        return f"With {few} days the peak load is {100 * high:.1f} % of a cap. {proven}"
    return (
        f"With {few} days the peak load is {100 * high:.1f} % of a cap, with {many} days "
        f"{100 * low:.1f} %. {proven}"
    )
