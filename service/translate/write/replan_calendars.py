"""Calendars worth having on the way, as the wire has them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from api_schema.replan_calendars_answer import RestCalendarAnswer, RestCalendarsAnswer
from service.translate.read.replan_calendars import ReadReplanCalendars
from service.translate.write.calendars import write_day
from service.translate.write.common import common_part
from service.translate.write.rest import write_let_go, write_spent
from service.translate.write.units import share
from solver.problem import Calendar
from solver.questions.calendars.found_rest import FoundRest, RestCalendar


def wire_calendar(asked: ReadReplanCalendars, calendar: Calendar) -> list[Any]:
    """A calendar as a re-plan takes it; days that are over stand as they were sent."""
    over = asked.days_over()
    days = (write_day(day) for day in calendar.days[len(over) :])
    ahead = [day if isinstance(day, list) else day.model_dump(exclude_none=True) for day in days]
    return [*over, *ahead]


def write_replan_calendars(asked: ReadReplanCalendars, found: FoundRest) -> RestCalendarsAnswer:
    """The calendars, and how far the search went."""
    common = common_part(asked.replan.read)
    return RestCalendarsAnswer(
        plan_id=asked.replan.of_plan,
        reference=common["reference"],
        say=list(_say(found)),
        calendars=[_calendar(asked, one) for one in found.calendars],
        allowed=found.allowed,
        planned=found.planned,
        without_plan=found.without_plan,
        set_aside=found.aside,
        left_open=found.left_open,
        complete=found.left_open == 0,
        unexplained=list(asked.replan.unexplained),
        cautions=common["cautions"],
    )


def _calendar(asked: ReadReplanCalendars, one: RestCalendar) -> RestCalendarAnswer:
    onward = asked.onward
    return RestCalendarAnswer(
        calendar=wire_calendar(asked, one.calendar),
        days=len(one.calendar.days),
        peak=share(one.peak),
        gap=share(one.gap),
        changed_loads=one.changed,
        let_go=write_let_go(one.rest),
        spent=write_spent(one.rest),
        carries={f"{a}/{b}": number for (a, b), number in onward.carries(one.calendar).items()},
        rests=onward.rests(one.calendar),
        is_of_plan=one.calendar == asked.problem.calendar,
    )


def _say(found: FoundRest) -> Iterator[str]:
    if not found.allowed:
        yield "The rules allow no calendar of so few days. Allow more days."
        return
    if found.calendars:
        first = found.calendars[0]
        days = len(first.calendar.days)
        yield (
            f"{len(found.calendars)} of {found.allowed} allowed calendars are worth having. The "
            f"first has {days} days in all, a peak of {share(first.peak):.0%} of the caps, and "
            f"{first.changed} loads that change."
        )
    elif not found.left_open:
        yield "No allowed calendar has a plan. Allow other days, or let something go."
    if found.aside:
        yield f"{found.aside} calendars were set aside, because their peaks cannot be much lower."
    if found.left_open:
        yield f"{found.left_open} calendars were not decided when the time ended."
    yield "Decide on the spot: the weather is not in these figures."
