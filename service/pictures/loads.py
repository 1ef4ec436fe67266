"""The load of each person by day against the cap: a row of small bars for everybody."""

from __future__ import annotations

from typing import Any

from service.pictures.svg import TEXT_SIZE, Picture, element, text, text_width

_ROW = 46.0
_BAR_ROOM = 30.0
_TOP = 28.0


def loads_picture(outcome: dict[str, Any], *, width: float, names: dict[str, str]) -> Picture:
    """For each person and day the largest share of a cap, as a bar; a full bar is the cap."""
    shares = _shares(outcome)
    days = len(outcome["plan"]["days"])
    left = 8 + max((text_width(_short(names, person)) for person in shares), default=0.0)
    right = text_width("100 %") + 14
    across = (width - left - right) / max(1, days)
    height = _TOP + _ROW * len(shares) + 26
    parts = [text((4, 14), "Largest load of the day as a share of its cap")]
    for row, (person, by_day) in enumerate(shares.items()):
        base = _TOP + row * _ROW + _BAR_ROOM + 8
        full = base - _BAR_ROOM
        end = left + across * days
        parts.append(text((left - 6, base - 8), _short(names, person), anchor="end", bold=True))
        parts.append(
            element(
                "path",
                d=f"M{left:.1f} {full:.1f}H{end:.1f}",
                stroke="#000",
                stroke_width=2.5,
                stroke_dasharray="12 4 2 4",
            )
        )
        parts.append(element("path", d=f"M{left:.1f} {base:.1f}H{end:.1f}", stroke="#000"))
        parts.append(text((end + 6, base - 8), f"{100 * max(by_day.values()):.0f} %"))
        for day, share in by_day.items():
            bar = min(share, 1.25) * _BAR_ROOM
            parts.append(
                element(
                    "rect",
                    x=left + (day - 1) * across + 0.15 * across,
                    y=base - bar,
                    width=0.7 * across,
                    height=bar,
                    fill="#bbb",
                    stroke="#000",
                    stroke_width=0.8,
                )
            )
    parts.append(_days(days, left=left, across=across, y=height - 8))
    parts.append(text((width - 4, height - 8), "day", anchor="end"))
    return Picture(
        "loads",
        "Load of each person by day against the cap",
        _finding(outcome, names),
        width,
        height,
        "".join(parts),
    )


def _shares(outcome: dict[str, Any]) -> dict[str, dict[int, float]]:
    shares: dict[str, dict[int, float]] = {}
    for trip in outcome["plan"]["trips"]:
        for load in trip["loads"]:
            by_day = shares.setdefault(load["person_id"], {})
            by_day[trip["day"]] = max(by_day.get(trip["day"], 0.0), load["load_fraction"])
    return shares


def _days(days: int, *, left: float, across: float, y: float) -> str:
    every = max(1, -(-int(TEXT_SIZE * 2) // max(1, int(across))))
    return "".join(
        text((left + (day - 0.5) * across, y), str(day), anchor="middle")
        for day in range(1, days + 1, every)
    )


def _finding(outcome: dict[str, Any], names: dict[str, str]) -> str:
    peak = outcome["peak"]
    if peak is None:
        return "Nobody carries anything: there are no trips."
    who = names.get(peak["person_id"], peak["person_id"])
    share = 100 * peak["load_fraction"]
    where = f"day {peak['day']}, from {peak['from']} to {peak['to']}"
    return f"{who} has the largest load, {share:.1f} % of the cap ({peak['binding']}), on {where}."


def _short(names: dict[str, str], person: str) -> str:
    name = names.get(person, person)
    return name if len(name) <= 14 else name[:13] + "…"
