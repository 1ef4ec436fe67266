"""Days of a request, read as the visits of rope teams."""

from __future__ import annotations

from collections.abc import Sequence

from api_schema.calendar import DayRequest
from service.translate.read.notes import Notes, Path, pointer_to
from solver.problem import Calendar, Day, Visit


def read_calendar(
    days: Sequence[list[str] | DayRequest], rope_teams: tuple[str, ...], notes: Notes
) -> Calendar:
    """The calendar; rope teams with the same places on a day make one visit together."""
    notes.point(("calendar",), "/calendar")
    return Calendar(tuple(_read_day(day, n, rope_teams, notes) for n, day in enumerate(days)))


def start_place_of(days: Sequence[list[str] | DayRequest]) -> str | None:
    """Where day 1 begins; None where that cannot be read."""
    first = days[0]
    if isinstance(first, list):
        return first[0]
    if first.places:
        return first.places[0]
    return next((places[0] for places in (first.teams or {}).values()), None)


def _read_day(
    day: list[str] | DayRequest, number: int, rope_teams: tuple[str, ...], notes: Notes
) -> Day:
    pointer = pointer_to("calendar", number)
    notes.point(("calendar", "days", number), pointer)
    where: Path = ("calendar", "days", number, "visits")
    if isinstance(day, list):
        return Day((_visit(rope_teams, day, (*where, 0), pointer, notes),))
    note = day.note or ""
    hours = _hour(day.start), _hour(day.turn_round)
    if (day.places is None) == (day.teams is None):
        notes.fault(
            pointer,
            "places_or_teams",
            "Name either `places` for everybody or `teams` with the places of each rope team.",
        )
    if day.places is not None:
        together = _visit(rope_teams, day.places, (*where, 0), f"{pointer}/places", notes)
        return Day((together,), note, *hours)
    ways: dict[tuple[str, ...], list[str]] = {}
    for team, places in (day.teams or {}).items():
        ways.setdefault(tuple(places), []).append(team)
    visits = tuple(
        _visit(tuple(teams), places, (*where, index), f"{pointer}/teams/{teams[0]}", notes)
        for index, (places, teams) in enumerate(ways.items())
    )
    return Day(visits, note, *hours)


def _hour(clock: str | None) -> float | None:
    """A time of the clock in hours since midnight [h]."""
    if clock is None:
        return None
    hours, _, minutes = clock.partition(":")
    return int(hours) + int(minutes) / 60


def _visit(
    teams: tuple[str, ...], places: Sequence[str], where: Path, pointer: str, notes: Notes
) -> Visit:
    notes.point(where, pointer)
    for step in range(len(places)):
        notes.point((*where, "places", step), f"{pointer}/{step}")
    return Visit(teams, tuple(places))
