"""Changes of the calendar: one more carry on a leg, one night less or more."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from solver.diagnosis import ChangeKind
from solver.problem import Calendar, Day, Problem, Visit
from solver.problem.pins import pins_moved
from solver.questions.changes.change import Apply, Change, fixed
from solver.questions.changes.enough import gives_counts, with_enough


def day_changes(problem: Problem) -> Iterator[Change]:
    """One more carry before each move, one day without travel less, one night more at a camp."""
    days = problem.calendar.days
    for index, day in enumerate(days):
        ends = _move_of(day)
        if ends is not None:
            yield _one_more_carry(problem, index, ends)
    seen: set[str] = set()
    for index, day in enumerate(days):
        place = _stay_of(day)
        if place is not None and place not in seen and 0 < index < len(days) - 1:
            seen.add(place)
            yield _one_night_less(index, place)
    for index, place in _first_nights(problem):
        yield _one_night_more(problem, index, place)


def fewer_carries(problem: Problem) -> Iterator[Change]:
    """One carry less, for each day that is one."""
    for index, day in enumerate(problem.calendar.days):
        places = _places_of(day)
        if places is not None and len(places) == 3 and places[0] == places[2]:
            yield Change(
                ChangeKind.CARRY,
                fixed(f"one carry less from {places[0]} to {places[1]}, on day {index + 1}"),
                _without(index),
                about=(("from_place", places[0]), ("to_place", places[1])),
            )


def _places_of(day: Day) -> tuple[str, ...] | None:
    """The places of a day on which everybody goes together."""
    return day.visits[0].places if len(day.visits) == 1 else None


def _move_of(day: Day) -> tuple[str, str] | None:
    """From where to where a move over one leg goes; None for another day."""
    places = _places_of(day)
    if places is None or len(places) != 2:
        return None
    return places[0], places[1]


def _stay_of(day: Day) -> str | None:
    places = _places_of(day)
    return places[0] if places is not None and len(places) == 1 else None


def _one_more_carry(problem: Problem, index: int, ends: tuple[str, str]) -> Change:
    here, there = ends
    legs = problem.route.leg_between(here, there)
    way = "outbound" if legs.from_place == here else "homeward"
    trip = f"one more carry from {here} to {there} ({way})"
    return Change(
        ChangeKind.CARRY,
        fixed(f"{trip}, on a day of its own{_with(problem)}"),
        lambda problem, _: _with_day(problem, index, (here, there, here)),
        about=(("from_place", here), ("to_place", there)),
    )


def _one_night_less(index: int, place: str) -> Change:
    return Change(
        ChangeKind.NIGHT_LESS,
        fixed(f"one night less at {place}, without day {index + 1}"),
        _without(index),
        about=(("place", place), ("day", index + 1)),
    )


def _one_night_more(problem: Problem, index: int, place: str) -> Change:
    return Change(
        ChangeKind.NIGHT_MORE,
        fixed(f"one night more at {place}, after day {index}{_with(problem)}"),
        lambda problem, _: _with_day(problem, index, (place,)),
        about=(("place", place), ("day", index)),
    )


def _with(problem: Problem) -> str:
    """What is said of a longer calendar where the request says how much fuel and food there is."""
    return ", with enough fuel and bags" if gives_counts(problem) else ""


def _first_nights(problem: Problem) -> Iterator[tuple[int, str]]:
    """For each place where all sleep, the index of the day after the first night there."""
    seen: set[str] = set()
    for index, day in enumerate(problem.calendar.days[:-1], start=1):
        places = _places_of(day)
        if places is not None and places[-1] not in seen:
            seen.add(places[-1])
            yield index, places[-1]


def _with_day(problem: Problem, index: int, places: tuple[str, ...]) -> Problem:
    """The problem with a day of everybody put in before the day of an index."""
    days = problem.calendar.days
    teams = tuple(team for visit in days[0].visits for team in visit.rope_team_ids)
    day = Day((Visit(teams, places),))
    longer = replace(
        problem,
        calendar=Calendar((*days[:index], day, *days[index:])),
        pins=pins_moved(problem.pins, after=index, days=1),
    )
    return with_enough(longer)


def _without(index: int) -> Apply:
    def apply(problem: Problem, _: int) -> Problem:
        days = problem.calendar.days
        kept = (pin for pin in problem.pins if pin.day != index + 1)
        return replace(
            problem,
            calendar=Calendar(days[:index] + days[index + 1 :]),
            pins=pins_moved(kept, after=index, days=-1),
        )

    return apply
