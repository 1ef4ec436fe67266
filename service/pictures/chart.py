"""The frame of a chart: axes with round numbers, and lines named at their ends."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from service.pictures.svg import (
    DASHES,
    MARKERS,
    TEXT_SIZE,
    Point,
    element,
    line,
    marker,
    pushed_apart,
    text,
    text_width,
)

_LEFT, _TOP, _BOTTOM = 52.0, 26.0, 34.0
_LINE_GAP = TEXT_SIZE + 2


@dataclass(frozen=True, slots=True)
class Series:
    """A line with its name: points as (day or distance, value)."""

    name: str
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Frame:
    """Where the axes are and what they span; the right margin has room for names of lines."""

    width: float
    height: float
    x_span: Point
    y_span: Point
    right: float

    def at(self, point: Point) -> Point:
        """The place of a value in the drawing."""
        (x_0, x_1), (y_0, y_1) = self.x_span, self.y_span
        across = (point[0] - x_0) / ((x_1 - x_0) or 1.0)
        up = (point[1] - y_0) / ((y_1 - y_0) or 1.0)
        inner_width = self.width - _LEFT - self.right
        return (
            _LEFT + across * inner_width,
            self.height - _BOTTOM - up * (self.height - _TOP - _BOTTOM),
        )


def frame_for(
    series: Sequence[Series],
    *,
    width: float,
    height: float,
    most: float = 0.0,
    least: float = 0.0,
) -> Frame:
    """A frame that holds all points, the value `most` and the value `least`."""
    xs = [x for one in series for x, _ in one.points] or [0.0, 1.0]
    ys = [y for one in series for _, y in one.points] or [0.0]
    top = max([*ys, most, least + 1e-9])
    step = _round_step((top - least) / 4)
    names = max((text_width(one.name) for one in series), default=0.0)
    return Frame(
        width,
        height,
        (min(xs), max(xs)),
        (least, least + step * math.ceil((top - least) / step - 1e-9)),
        min(names + 22.0, width / 2.5),
    )


def axes(frame: Frame, *, x_name: str, y_name: str, whole_x: bool = True) -> str:
    """Both axes with their names, light lines at round values, and the values."""
    (x_0, x_1), (y_0, y_1) = frame.x_span, frame.y_span
    parts = []
    y_step = _round_step((y_1 - y_0) / 4)
    for number in range(round((y_1 - y_0) / y_step) + 1):
        value = y_0 + number * y_step
        (left, y), (right, _) = frame.at((x_0, value)), frame.at((x_1, value))
        parts.append(element("path", d=f"M{left:.1f} {y:.1f}H{right:.1f}", stroke="#999"))
        parts.append(text((left - 6, y + 4), f"{value:g}", anchor="end"))
    wide = max(text_width(f"{x_1:g}") + 8, 24.0)
    room = max(1, int((frame.at((x_1, y_0))[0] - frame.at((x_0, y_0))[0]) / wide))
    x_step = max(1.0 if whole_x else 0.0, _round_step((x_1 - x_0) / room, up=True))
    value = math.ceil(x_0 / x_step - 1e-9) * x_step
    while value <= x_1 + 1e-9:
        x, y = frame.at((value, y_0))
        parts.append(element("path", d=f"M{x:.1f} {y:.1f}v4", stroke="#000"))
        parts.append(text((x, y + 17), f"{value:g}", anchor="middle"))
        value += x_step
    (left, bottom), (right, _) = frame.at((x_0, y_0)), frame.at((x_1, y_0))
    parts.append(element("path", d=f"M{left:.1f} {bottom:.1f}H{right:.1f}", stroke="#000"))
    parts.append(text((4, 14), y_name))
    parts.append(text((right + 16, bottom + 17), x_name))
    return "".join(parts)


def named_lines(frame: Frame, series: Sequence[Series], *, limit: Series | None = None) -> str:
    """Lines with dashes and markers of their own, each with its name beyond its right end.

    A limit is a thick line of dashes and dots without markers.
    """
    parts, ends = [], []
    for index, one in enumerate(series):
        places = [frame.at(point) for point in one.points]
        parts.append(line(places, dash=DASHES[index % len(DASHES)]))
        parts += [marker(place, MARKERS[index % len(MARKERS)]) for place in places]
        ends.append((one.name, *places[-1]))
    if limit is not None:
        places = [frame.at(point) for point in limit.points]
        parts.append(line(places, dash="12 4 2 4", width=2.5))
        ends.append((limit.name, *places[-1]))
    names_x = frame.width - frame.right + 16
    heights = pushed_apart(
        [y for _, _, y in ends], gap=_LINE_GAP, within=(_TOP, frame.height - _BOTTOM - 4)
    )
    for (name, x, y), height in zip(ends, heights, strict=True):
        leader = f"M{x + 4:.1f} {y:.1f}L{names_x - 3:.1f} {height:.1f}"
        parts.append(element("path", d=leader, stroke="#666"))
        parts.append(text((names_x, height + 4), name))
    return "".join(parts)


def _round_step(rough: float, *, up: bool = False) -> float:
    """One, two or five times a power of ten: the nearest not far below, or at least `rough`."""
    if rough <= 0:
        return 1.0
    power = 10.0 ** math.floor(math.log10(rough))
    for factor in (1.0, 2.0, 5.0, 10.0):
        if factor * power >= rough * (1.0 if up else 0.75):
            return factor * power
    return 10.0 * power
