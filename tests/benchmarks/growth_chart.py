"""Points and a fitted line on two logarithmic axes, as a small SVG without any library."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

WIDTH, HEIGHT = 300, 250
LEFT, RIGHT, TOP, BOTTOM = 46, 10, 28, 40
FONT = 'font-family="sans-serif" font-size="11"'
DASHED = 'stroke="#333" stroke-dasharray="4 3"'
COLOURS = {
    "small": "#0072b2",
    "medium": "#009e73",
    "large": "#e69f00",
    "xl": "#d55e00",
    "xxl": "#cc79a7",
}


@dataclass(frozen=True)
class Panel:
    """One drawing: a title, points (x, y, size's name), and a fitted line with its label."""

    title: str
    dots: Sequence[tuple[float, float, str]]
    line: Callable[[float], float] | None
    line_label: str


def decades(values: list[float]) -> tuple[int, int]:
    """The powers of ten just below and above some positive values."""
    if not values:
        return 0, 1
    low, high = math.floor(math.log10(min(values))), math.ceil(math.log10(max(values)))
    return low, max(high, low + 1)


def draw(panels: list[Panel], x_title: str) -> str:
    """All panels side by side on the same horizontal axis."""
    x_range = decades([x for panel in panels for x, _, _ in panel.dots])
    body = [
        element
        for number, panel in enumerate(panels)
        for element in _panel(panel, number * WIDTH, x_range, x_title)
    ]
    names = dict.fromkeys(name for panel in panels for _, _, name in panel.dots)
    for number, name in enumerate(names):
        x = LEFT + 80 * number
        body.append(f'<circle cx="{x}" cy="{HEIGHT + 10}" r="3.5" fill="{COLOURS[name]}"/>')
        body.append(f'<text x="{x + 8}" y="{HEIGHT + 14}">{name}</text>')
    wide, high = WIDTH * len(panels), HEIGHT + 24
    return "\n".join(
        [
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide} {high}" {FONT}>',
            '<rect width="100%" height="100%" fill="#fff"/>',
            *body,
            "</svg>\n",
        ]
    )


def _panel(panel: Panel, shift: int, x_range: tuple[int, int], x_title: str) -> Iterator[str]:
    y_range = decades([y for _, y, _ in panel.dots])
    wide, high = WIDTH - LEFT - RIGHT, HEIGHT - TOP - BOTTOM

    def at_x(x: float) -> float:
        return shift + LEFT + wide * (math.log10(x) - x_range[0]) / (x_range[1] - x_range[0])

    def at_y(y: float) -> float:
        return TOP + high * (y_range[1] - math.log10(y)) / (y_range[1] - y_range[0])

    yield f'<text x="{shift + LEFT}" y="16" font-weight="bold">{panel.title}</text>'
    yield (
        f'<rect x="{shift + LEFT}" y="{TOP}" width="{wide}" height="{high}" '
        'fill="none" stroke="#666"/>'
    )
    for power in range(x_range[0], x_range[1] + 1):
        x = at_x(10.0**power)
        yield f'<path d="M{x:.1f} {TOP}v{high}" stroke="#ddd"/>'
        yield f'<text x="{x:.1f}" y="{TOP + high + 14}" text-anchor="middle">10{_up(power)}</text>'
    for power in range(y_range[0], y_range[1] + 1):
        y = at_y(10.0**power)
        label = f"{10.0**power:g}"
        yield f'<path d="M{shift + LEFT} {y:.1f}h{wide}" stroke="#ddd"/>'
        yield f'<text x="{shift + LEFT - 5}" y="{y + 4:.1f}" text-anchor="end">{label}</text>'
    middle = shift + LEFT + wide / 2
    yield f'<text x="{middle:.1f}" y="{HEIGHT - 8}" text-anchor="middle">{x_title}</text>'
    if panel.line is not None and panel.dots:
        ends = min(x for x, _, _ in panel.dots), max(x for x, _, _ in panel.dots)
        (x1, y1), (x2, y2) = ((at_x(x), at_y(panel.line(x))) for x in ends)
        yield f'<path d="M{x1:.1f} {y1:.1f}L{x2:.1f} {y2:.1f}" {DASHED}/>'
        yield f'<text x="{shift + LEFT + 8}" y="{TOP + 16}" fill="#333">{panel.line_label}</text>'
    for x, y, name in panel.dots:
        yield f'<circle cx="{at_x(x):.1f}" cy="{at_y(y):.1f}" r="3.5" fill="{COLOURS[name]}"/>'


def _up(power: int) -> str:
    """A whole number as superscript digits."""
    return str(power).translate(str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹"))
