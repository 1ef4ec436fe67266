"""The days of a plan as iCalendar (RFC 5545): one event a day, all day long."""

from __future__ import annotations

import datetime as dt
from typing import Any

from icalendar import Calendar, Event

_PRODUCT = "-//Haulwright//plans//EN"


def calendar_of(
    outcome: dict[str, Any],
    *,
    plan_id: str,
    sequence: int,
    stamp: dt.datetime,
    names: dict[str, str],
) -> bytes:
    """The calendar of a solved outcome that has dates; `names` are those of places by id.

    An event's UID is made of the plan and the day, so that a calendar replaces it when the plan's
    `sequence` grows. An event ends before the day that DTEND names.
    """
    calendar = Calendar()
    calendar.add("prodid", _PRODUCT)
    calendar.add("version", "2.0")
    calendar.add("method", "PUBLISH")
    for day in outcome["plan"]["days"]:
        date = dt.date.fromisoformat(day["date"])
        event = Event()
        event.add("uid", f"{plan_id}-day-{day['day']}@haulwright")
        event.add("dtstamp", stamp)
        event.add("sequence", sequence)
        event.add("dtstart", date)
        event.add("dtend", date + dt.timedelta(days=1))
        event.add("summary", _summary(day, names))
        event.add("description", _description(day, outcome, plan_id))
        event.add("transp", "TRANSPARENT")
        calendar.add_component(event)
    return bytes(calendar.to_ical())


def _summary(day: dict[str, Any], names: dict[str, str]) -> str:
    ways = dict.fromkeys(
        " - ".join(names.get(place, place) for place in places) for places in day["places"].values()
    )
    return f"Day {day['day']}: {day['kind'].replace('_', ' ')}, {' / '.join(ways)}"


def _description(day: dict[str, Any], outcome: dict[str, Any], plan_id: str) -> str:
    lines = [day["note"]] if day["note"] else []
    for trip in outcome["plan"]["trips"]:
        if trip["day"] == day["day"]:
            loads = ", ".join(
                f"{load['person_id']} {load['total_kg']:.1f} kg" for load in trip["loads"]
            )
            lines.append(f"{trip['from']} to {trip['to']}: {loads}")
    lines.append(f"Plan {plan_id}. A plan is advice; the leader decides.")
    return "\n".join(lines)
