"""SVG written as text: elements with presentation attributes only, and labels that do not collide.

Page styles do not reach an SVG in every program, and a `style` attribute is refused by the
service's own policy, so that each element says itself how it looks.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

FONT = "DejaVu Sans Condensed, Arial, sans-serif"
TEXT_SIZE = 13.0
"""Size of all text, in units of the drawing."""
_WIDTH_OF_A_CHARACTER = 0.55
"""A safe share of the size, for condensed and for plain sans-serif faces."""

Point = tuple[float, float]

# Four strokes that are told apart without colour, each with a marker of its own.
DASHES = ("none", "7 3", "2 3", "9 3 2 3")
MARKERS = ("circle", "square", "triangle", "cross")


def element(name: str, content: str = "", **attributes: str | float) -> str:
    """An element; underscores of attribute names become hyphens, numbers have two decimals."""
    written = "".join(
        f' {key.rstrip("_").replace("_", "-")}="{_value(value)}"'
        for key, value in attributes.items()
    )
    return f"<{name}{written}>{content}</{name}>" if content else f"<{name}{written}/>"


def _value(value: str | float) -> str:
    if isinstance(value, str):
        return escape(value, quote=True)
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def text(at: Point, words: str, *, anchor: str = "start", bold: bool = False) -> str:
    """A line of text, whose baseline begins, ends or has its middle at a point."""
    weight = {"font_weight": "bold"} if bold else {}
    x, y = at
    return element("text", escape(words), x=x, y=y, text_anchor=anchor, **weight)


def text_width(words: str) -> float:
    """The most that a line of text is wide, in units of the drawing."""
    return len(words) * TEXT_SIZE * _WIDTH_OF_A_CHARACTER


def line(points: Sequence[Point], *, dash: str = "none", width: float = 1.5) -> str:
    """A line through points, without an area."""
    path = " ".join(f"{_value(x)},{_value(y)}" for x, y in points)
    return element(
        "polyline",
        points=path,
        fill="none",
        stroke="#000",
        stroke_width=width,
        stroke_dasharray=dash,
    )


def marker(at: Point, kind: str) -> str:
    """A small sign at a point of a line."""
    (x, y), r = at, 3.0
    match kind:
        case "circle":
            return element("circle", cx=x, cy=y, r=r, fill="#000")
        case "square":
            return element(
                "rect", x=x - r, y=y - r, width=2 * r, height=2 * r, fill="#fff", stroke="#000"
            )
        case "triangle":
            corners = f"{_value(x - r)},{_value(y + r)} {_value(x + r)},{_value(y + r)} "
            return element("polygon", points=f"{corners}{_value(x)},{_value(y - r)}", fill="#000")
    arms = f"M{_value(x - r)} {_value(y - r)}L{_value(x + r)} {_value(y + r)}"
    arms += f"M{_value(x - r)} {_value(y + r)}L{_value(x + r)} {_value(y - r)}"
    return element("path", d=arms, stroke="#000", stroke_width=1.5)


def pushed_apart(heights: Sequence[float], *, gap: float, within: Point) -> list[float]:
    """The heights, moved as little as it takes to be `gap` apart and within two bounds."""
    order = sorted(range(len(heights)), key=lambda index: heights[index])
    moved = list(heights)
    lowest, highest = within
    floor = lowest
    for index in order:
        moved[index] = max(moved[index], floor)
        floor = moved[index] + gap
    ceiling = highest
    for index in reversed(order):
        moved[index] = min(moved[index], ceiling)
        ceiling = moved[index] - gap
    return moved


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture with its text alternative: a title, and the finding in a sentence."""

    picture_id: str
    title: str
    finding: str
    width: float
    height: float
    body: str

    def svg(self) -> str:
        """The picture as an SVG element, to stand in a page or alone in a file."""
        title_id, finding_id = f"{self.picture_id}-title", f"{self.picture_id}-finding"
        inside = (
            element("title", escape(self.title), id=title_id)
            + element("desc", escape(self.finding), id=finding_id)
            + self.body
        )
        return element(
            "svg",
            inside,
            xmlns="http://www.w3.org/2000/svg",
            viewBox=f"0 0 {_value(self.width)} {_value(self.height)}",
            width="100%",
            role="img",
            aria_labelledby=f"{title_id} {finding_id}",
            font_family=FONT,
            font_size=TEXT_SIZE,
            fill="#000",
        )
