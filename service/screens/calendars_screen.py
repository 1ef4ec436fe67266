"""The screen of the calendars worth having: days against the peak load, and each calendar."""

from __future__ import annotations

import json
from dataclasses import dataclass

from api_schema.calendars_answer import CalendarAnswer, CalendarsAnswer, CurvePointAnswer
from service.pictures.calendars import calendars_picture
from service.screens.drawn_for import NARROW, WIDE, for_width
from service.screens.frame import Screen, screen
from service.screens.words import percent


@dataclass(frozen=True, slots=True)
class CalendarLine:
    """A calendar of the curve in words, and as a request takes it."""

    days: int
    peak: str
    gap: str
    heavy: int
    carries: str
    rests: str
    document: str


def calendars_screen(answer: CalendarsAnswer) -> Screen:
    """The page of an answer about calendars."""
    points = [(p.days, p.best.peak, max(0.0, p.best.peak - p.gap)) for p in answer.curve]
    pictures = [for_width(calendars_picture(points, width=w)) for w in (WIDE, NARROW) if points]
    return screen(
        "calendars.html.j2",
        title=f"Calendars {answer.reference or ''}".strip(),
        pictures=pictures,
        lines=[_line(point) for point in answer.curve],
        chosen=None if answer.chosen is None else _words(answer.chosen),
        chosen_is_proven=answer.chosen_is_proven,
        allowed=answer.allowed,
        solved=answer.solved,
        left_open=answer.left_open,
        cautions=[caution.text for caution in answer.cautions],
    )


def _line(point: CurvePointAnswer) -> CalendarLine:
    best = point.best
    return CalendarLine(
        days=point.days,
        peak=percent(best.peak),
        gap=f"{100 * point.gap:.1f}",
        heavy=best.heavy_person_trips,
        carries=_counts(best.carries, of="/", to=" to "),
        rests=_counts(best.rests),
        document=_document(best),
    )


def _counts(counts: dict[str, int], *, of: str = "", to: str = "") -> str:
    return "; ".join(
        f"{key.replace(of, to) if of else key}: {count}" for key, count in counts.items() if count
    )


def _document(calendar: CalendarAnswer) -> str:
    """The calendar as JSON, a day on a line."""
    days = calendar.model_dump(mode="json")["calendar"]
    lines = ",\n".join(f"  {json.dumps(day, ensure_ascii=False)}" for day in days)
    return f'"calendar": [\n{lines}\n]'


def _words(calendar: CalendarAnswer) -> str:
    return f"{calendar.days} days, peak load {percent(calendar.peak)}"
