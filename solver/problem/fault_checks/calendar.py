"""Faults of the calendar: days that teleport, nights where nobody can sleep, an open end."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise

from solver.errors import ProblemFault
from solver.problem.calendar import Visit
from solver.problem.fault_checks.wording import Path, listed, unknown_id
from solver.problem.problem import Problem
from solver.problem.route import PlaceKind

_NOT_FOR_SLEEPING = {PlaceKind.CACHE_SITE: "a cache site", PlaceKind.SUMMIT: "a summit"}


def rope_team_faults(problem: Problem) -> Iterator[ProblemFault]:
    """Days on which a rope team has no visit or two, and rope teams that nobody is in."""
    known = list(dict.fromkeys(person.rope_team_id for person in problem.everybody))
    if not problem.calendar.days:
        yield ProblemFault(("calendar", "days"), "empty", "Write at least one day.")
    for number, day in enumerate(problem.calendar.days):
        where: Path = ("calendar", "days", number)
        teams = _there_on(problem, number + 1)
        named = [team for visit in day.visits for team in visit.rope_team_ids]
        for index, visit in enumerate(day.visits):
            for team in visit.rope_team_ids:
                if known and team not in known:
                    yield unknown_id((*where, "visits", index), team, "rope team", known)
            if not visit.places:
                yield ProblemFault((*where, "visits", index), "empty", "Name at least one place.")
        for team in teams:
            if team not in named:
                yield ProblemFault(
                    where,
                    "rope_team_missing",
                    f"Day {number + 1} does not say where rope team {team} is. Give every rope "
                    "team its places; one place alone is a day without travel.",
                )
            elif named.count(team) > 1:
                yield ProblemFault(
                    where, "rope_team_twice", f"Day {number + 1} has rope team {team} twice."
                )


def _there_on(problem: Problem, day: int) -> list[str]:
    """The rope teams of those who travel on a day or sleep its night."""
    return list(
        dict.fromkeys(
            person.rope_team_id
            for person in problem.everybody
            if person.presence.travels_on(day) or person.presence.sleeps_on(day)
        )
    )


def place_faults(problem: Problem) -> Iterator[ProblemFault]:
    """Places that the route does not have."""
    known = [place.place_id for place in problem.route.places]
    for number, day in enumerate(problem.calendar.days):
        for index, visit in enumerate(day.visits):
            for step, place in enumerate(visit.places):
                if place not in known:
                    where = ("calendar", "days", number, "visits", index, "places", step)
                    yield unknown_id(where, place, "place", known)


def clock_faults(problem: Problem) -> Iterator[ProblemFault]:
    """Times that no clock shows, and days on which people turn round before they start."""
    for number, day in enumerate(problem.calendar.days):
        where: Path = ("calendar", "days", number)
        for field in ("start_hour", "turn_round_hour"):
            hour = getattr(day, field)
            if hour is not None and not 0 <= hour < 24:
                yield ProblemFault((*where, field), "out_of_range", "A day has 24 hours.")
        start, turn = day.start_hour, day.turn_round_hour
        if start is not None and turn is not None and turn <= start:
            yield ProblemFault(
                (*where, "turn_round_hour"),
                "turns_round_too_soon",
                f"On day {number + 1} people turn round no later than they start. Give "
                "both times of the same day.",
            )


def end_faults(problem: Problem) -> Iterator[ProblemFault]:
    """Days that teleport, places that follow themselves, bad nights, a trip that ends elsewhere."""
    days = problem.calendar.days
    kinds = {place.place_id: place.kind for place in reversed(problem.route.places)}
    home = problem.start_place
    for number, day in enumerate(days):
        for index, visit in enumerate(day.visits):
            where: Path = ("calendar", "days", number, "visits", index, "places")
            if not visit.places:
                continue
            yield from _first_place_faults(problem, number, visit, where)
            for step, (here, there) in enumerate(pairwise(visit.places), start=1):
                if here == there:
                    yield ProblemFault(
                        (*where, step),
                        "place_repeated",
                        f"{there} follows itself. Name a place once for each time that people "
                        "come to it.",
                    )
            end = (*where, len(visit.places) - 1)
            last = visit.places[-1]
            if number + 1 == len(days):
                if last != home:
                    yield ProblemFault(
                        end,
                        "not_back_at_start",
                        f"The last day ends at {last}. It must end at {home}, where the "
                        "expedition began: everything comes down.",
                    )
            elif kinds.get(last) in _NOT_FOR_SLEEPING:
                yield ProblemFault(
                    end,
                    "no_sleeping_here",
                    f"Day {number + 1} ends at {last}, which is {_NOT_FOR_SLEEPING[kinds[last]]}. "
                    "End the day at a camp, or change the kind of the place.",
                )


def _first_place_faults(
    problem: Problem, number: int, visit: Visit, where: Path
) -> Iterator[ProblemFault]:
    """A day begins where its rope teams slept; day 1 begins at one place for all.

    Where the night's place is itself a fault of the day before, nothing is said here.
    """
    first = visit.places[0]
    kinds = {place.place_id: place.kind for place in problem.route.places}
    if number == 0:
        slept = [problem.start_place]
        so_far = f"Day 1 begins at {problem.start_place} for the first rope team"
    else:
        before = problem.calendar.days[number - 1]
        slept = [
            earlier.places[-1]
            for earlier in before.visits
            if earlier.places and set(earlier.rope_team_ids) & set(visit.rope_team_ids)
        ]
        so_far = f"Day {number} ended at {listed(slept)}"
    if number and (first not in kinds or any(_is_no_bed(kinds, place) for place in slept)):
        return
    if slept and set(slept) != {first}:
        yield ProblemFault(
            (*where, 0),
            "teleports",
            f"{so_far}, but here the day begins at {first}. Begin it where people slept, or write "
            "the way between.",
        )


def _is_no_bed(kinds: Mapping[str, PlaceKind], place: str) -> bool:
    return place not in kinds or kinds[place] in _NOT_FOR_SLEEPING


def leg_faults(problem: Problem) -> Iterator[ProblemFault]:
    """Steps of a day that no leg joins. The route must be a tree, and every place known."""
    route = problem.route
    joined = {frozenset((leg.from_place, leg.to_place)) for leg in route.legs}
    jumps = {fault.where for fault in end_faults(problem) if fault.code == "teleports"}
    for number, day in enumerate(problem.calendar.days):
        for index, visit in enumerate(day.visits):
            for step, (here, there) in enumerate(pairwise(visit.places), start=1):
                where: Path = ("calendar", "days", number, "visits", index, "places")
                # A day that begins at a wrong place has that fault already.
                begins_wrong = step == 1 and (*where, 0) in jumps
                if here == there or begins_wrong or frozenset((here, there)) in joined:
                    continue
                yield ProblemFault(
                    (*where, step),
                    "no_leg",
                    f"No leg joins {here} and {there}. The way along the route is "
                    f"{', '.join(route.path(here, there))}.",
                )
