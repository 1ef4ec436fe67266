"""Energy by day: what people need on average, and what is planned for them to eat."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from service.pictures.chart import Series, axes, frame_for, named_lines
from service.pictures.svg import Picture

_HEIGHT = 220.0


def energy_picture(figures: Iterable[Mapping[str, Any]], *, width: float) -> Picture | None:
    """The mean need and the mean ration of each day [kcal]; None where they are not known.

    `figures` are those of the requirements: `day_energy` by person, `ration_energy` by night.
    """
    need = _mean_by_day(figures, "day_energy")
    eaten = _mean_by_day(figures, "ration_energy")
    if not need or not eaten:
        return None
    series = [Series("needed", tuple(need.items())), Series("eaten", tuple(eaten.items()))]
    frame = frame_for(series, width=width, height=_HEIGHT)
    both = [day for day in need if day in eaten]
    short = [(need[day] - eaten[day], day) for day in both]
    worst, day = max(short, default=(0.0, 1.0))
    total = sum(difference for difference, _ in short)
    finding = (
        f"Over {len(both)} days a person eats {abs(total):.0f} kcal "
        f"{'less' if total > 0 else 'more'} than needed, on average of all people."
    )
    if worst > 0:
        finding += f" Day {day:.0f} falls short most, by {worst:.0f} kcal."
    return Picture(
        "energy",
        "Energy needed and eaten by day",
        finding,
        width,
        _HEIGHT,
        axes(frame, x_name="day", y_name="kcal for one person") + named_lines(frame, series),
    )


def _mean_by_day(figures: Iterable[Mapping[str, Any]], figure_id: str) -> dict[float, float]:
    values: dict[float, list[float]] = {}
    for figure in figures:
        if figure["figure_id"] == figure_id and "day" in figure["about"]:
            values.setdefault(float(figure["about"]["day"]), []).append(float(figure["value"]))
    return {day: sum(found) / len(found) for day, found in sorted(values.items())}
