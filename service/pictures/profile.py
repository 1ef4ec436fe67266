"""The profile of an expedition: where people sleep each night, and how high they carry that day."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

from service.pictures.chart import Series, axes, frame_for, named_lines
from service.pictures.svg import Picture

_HEIGHT = 240.0
_ROUND_M = 500


def profile_picture(
    outcome: dict[str, Any], elevations: dict[str, float], *, width: float
) -> Picture:
    """The sleeping and the highest elevation of each day, of whoever is highest."""
    days = outcome["plan"]["days"]
    slept = [
        (float(day["day"]), max(elevations[way[-1]] for way in day["places"].values()))
        for day in days
    ]
    highest = [
        (float(day["day"]), max(elevations[p] for way in day["places"].values() for p in way))
        for day in days
    ]
    series = [Series("sleeping", tuple(slept)), Series("highest", tuple(highest))]
    low = min(value for one in series for _, value in one.points)
    frame = frame_for(
        series, width=width, height=_HEIGHT, least=float(int(low // _ROUND_M) * _ROUND_M)
    )
    gains = [(after[1] - before[1], after[0]) for before, after in pairwise(slept)]
    gain_m, day = max(gains, default=(0.0, 1.0))
    top_m, top_day = max((value, -number) for number, value in slept)
    finding = f"The highest night is at {top_m:.0f} m, first on day {-top_day:.0f}."
    if gain_m > 0:
        finding += f" The largest gain of a night is {gain_m:.0f} m, on day {day:.0f}."
    return Picture(
        "profile",
        "Sleeping elevation and highest elevation of each day",
        finding,
        width,
        _HEIGHT,
        axes(frame, x_name="day", y_name="metres above sea level") + named_lines(frame, series),
    )
