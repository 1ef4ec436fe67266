"""The stock of camps over time, as nights of food, with the line of the reserve."""

from __future__ import annotations

from typing import Any

from service.pictures.chart import Series, axes, frame_for, named_lines
from service.pictures.svg import Picture

_HEIGHT = 220.0
MOST_LINES = 4


def stock_picture(
    outcome: dict[str, Any], place: str, *, width: float, name: str, reserve_nights: float
) -> Picture:
    """How many nights the food at a place lasts for each cook group, after each night."""
    series = [
        Series(group, tuple(points))
        for group, points in list(_nights(outcome, place).items())[:MOST_LINES]
    ]
    first, last = 0.0, float(len(outcome["plan"]["days"]))
    reserve = Series(
        f"reserve {reserve_nights:g}", ((first, reserve_nights), (last, reserve_nights))
    )
    frame = frame_for([*series, reserve], width=width, height=_HEIGHT)
    axis = axes(frame, x_name="day", y_name=f"{name}: nights of food")
    lines = named_lines(frame, series, limit=reserve if reserve_nights else None)
    return Picture(
        f"stock-{place}",
        f"Nights of food at {name} after each night",
        _finding(series, name, reserve_nights),
        width,
        _HEIGHT,
        axis + lines,
    )


def _nights(outcome: dict[str, Any], place: str) -> dict[str, list[tuple[float, float]]]:
    nights: dict[str, list[tuple[float, float]]] = {}
    for night in outcome["plan"]["stock"]:
        if night["place"] == place:
            for group in night["cook_groups"]:
                points = nights.setdefault(group["cook_group"], [])
                points.append((float(night["day"]), float(group["nights_of_food"])))
    return nights


def _finding(series: list[Series], name: str, reserve_nights: float) -> str:
    points = [(value, day, one.name) for one in series for day, value in one.points]
    if not points:
        return f"There is never any food at {name}."
    most, day, _ = max(points)
    words = f"The food at {name} lasts longest after day {day:.0f}: {most:.1f} nights."
    nights = "1 night" if reserve_nights == 1 else f"{reserve_nights:g} nights"
    return f"{words} The reserve is for {nights}." if reserve_nights else words
