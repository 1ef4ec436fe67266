"""Calendars worth having, as the wire has them."""

from __future__ import annotations

from api_schema.calendars_answer import (
    CalendarAnswer,
    CalendarDayAnswer,
    CalendarsAnswer,
    CurvePointAnswer,
)
from api_schema.common_answer import AssumptionAnswer
from service.translate.read.requests import ReadRequest
from service.translate.write.common import common_part
from service.translate.write.units import share
from solver.problem import Day
from solver.questions.calendars.choose import Chosen
from solver.questions.calendars.found import FoundCalendars, SolvedCalendar
from solver.questions.calendars.space import Skeleton
from solver.questions.changes.enough import gives_counts
from solver.rulebook import SourceStatus

_MINUTES = 60


def write_calendars(
    found: FoundCalendars, chosen: Chosen | None, skeleton: Skeleton, read: ReadRequest
) -> CalendarsAnswer:
    """The curve, the one chosen, and how far the search went."""
    common = common_part(read)
    return CalendarsAnswer(
        reference=common["reference"],
        curve=[
            CurvePointAnswer(
                days=point.days,
                best=_calendar(point.best, skeleton),
                gap=share(point.gap),
                calmer=None if point.calmer is None else _calendar(point.calmer, skeleton),
            )
            for point in found.curve
        ],
        chosen=None if chosen is None else _calendar(chosen.calendar, skeleton),
        chosen_is_proven=chosen is not None and chosen.proven,
        allowed=found.allowed,
        solved=found.solved,
        left_open=found.open_calendars,
        assumptions=[*common["assumptions"], *_enough(read)],
        cautions=common["cautions"],
    )


def _enough(read: ReadRequest) -> list[AssumptionAnswer]:
    """What is assumed of counts that the request gives for its own calendar."""
    if not gives_counts(read.problem):
        return []
    return [
        AssumptionAnswer(
            pointer="/fuel/containers",
            what="Fuel containers and bags of a calendar for which the request gives too few.",
            value="as many as the calendar needs",
            source_status=str(SourceStatus.PRACTICE),
        )
    ]


def _calendar(one: SolvedCalendar, skeleton: Skeleton) -> CalendarAnswer:
    legs = skeleton.legs()
    return CalendarAnswer(
        calendar=[write_day(day) for day in one.calendar.days],
        days=one.days,
        peak=share(one.peak),
        bound=share(one.bound),
        heavy_person_trips=one.heavy,
        carries={
            f"{here}/{there}": number
            for (here, there), number in zip(legs, one.choice[: len(legs)], strict=True)
        },
        rests={
            there: number for (_, there), number in zip(legs, one.choice[len(legs) :], strict=True)
        },
    )


def write_day(day: Day) -> list[str] | CalendarDayAnswer:
    """A day as a request says it: its places, with times and a note where it has any."""
    places = list(day.visits[0].places)
    if day.start_hour is None and day.turn_round_hour is None and not day.note:
        return places
    return CalendarDayAnswer(
        places=places,
        start=_clock(day.start_hour),
        turn_round=_clock(day.turn_round_hour),
        note=day.note or None,
    )


def _clock(hour: float | None) -> str | None:
    if hour is None:
        return None
    hours, minutes = divmod(round(hour * _MINUTES), _MINUTES)
    return f"{hours:02d}:{minutes:02d}"
