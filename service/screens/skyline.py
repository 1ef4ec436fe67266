"""The skyline of a plan's own route, which stands behind its title."""

from __future__ import annotations

from collections.abc import Sequence

_WIDTH, _HEIGHT, _FOOT = 1000.0, 110.0, 18.0


def skyline(elevations_m: Sequence[float]) -> str:
    """The points of a polygon 1000 by 110 from the elevations along the way [m]."""
    if len(elevations_m) < 2:
        elevations_m = (0.0, 1.0)
    low, high = min(elevations_m), max(elevations_m)
    rise = (high - low) or 1.0
    step = _WIDTH / (len(elevations_m) - 1)
    tops = [
        f"{index * step:.0f},{_HEIGHT - _FOOT - (one - low) / rise * (_HEIGHT - 2 * _FOOT):.0f}"
        for index, one in enumerate(elevations_m)
    ]
    return " ".join([f"0,{_HEIGHT:.0f}", *tops, f"{_WIDTH:.0f},{_HEIGHT:.0f}"])
