"""The peak load of each variant of a comparison: a bar for each, against the cap."""

from __future__ import annotations

from collections.abc import Sequence

from service.pictures.svg import Picture, element, text, text_width

_ROW = 42.0
_TOP = 24.0


def peaks_picture(peaks: Sequence[tuple[str, float]], *, width: float) -> Picture:
    """Bars of shares of a cap, each with its name above and its number at its end."""
    full = (width - 4) / max(1.0, *(share for _, share in peaks))
    height = _TOP + _ROW * len(peaks) + 6
    most = int(width / text_width("x")) - 10
    parts = [text((0, 14), "Peak load as a share of its cap")]
    for row, (name, share) in enumerate(peaks):
        top = _TOP + row * _ROW
        shown = name if len(name) <= most else name[: most - 1] + "…"
        # The number stands beside the name, where no bar and no cap runs through it.
        parts.append(text((0, top + 13), f"{shown}: {100 * share:.1f} %", bold=row == 0))
        parts.append(
            element(
                "rect",
                x=0.5,
                y=top + 19,
                width=max(1.0, share * full),
                height=14,
                fill="#fff" if row == 0 else "#bbb",
                stroke="#000",
            )
        )
    cap = f"M{full:.1f} {_TOP:.1f}V{height - 4:.1f}"
    parts.append(
        element("path", d=cap, stroke="#000", stroke_width=2.0, stroke_dasharray="12 4 2 4")
    )
    return Picture(
        "peaks", "Peak load of each variant", _finding(peaks), width, height, "".join(parts)
    )


def _finding(peaks: Sequence[tuple[str, float]]) -> str:
    lowest = min(peaks, key=lambda one: one[1])
    highest = max(peaks, key=lambda one: one[1])
    if lowest[1] == highest[1]:
        return f"All variants have the same peak load, {100 * lowest[1]:.1f} % of a cap."
    return (
        f"The lowest peak load is {100 * lowest[1]:.1f} % of a cap ({lowest[0]}), "
        f"the highest {100 * highest[1]:.1f} % ({highest[0]}). The base is white."
    )
