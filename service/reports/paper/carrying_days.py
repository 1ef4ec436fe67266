"""When people carry a thing, in few words: `ann on days 2-4; bob on day 7 (road to camp)`."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping
from itertools import groupby
from types import MappingProxyType
from typing import Any, NamedTuple

from service.reports.paper.keepers import Elsewhere, Keeper
from service.reports.paper.things import by_unit

Document = dict[str, Any]

Name = Callable[[str], str]
"""How a person or a place is called."""


class Ride(NamedTuple):
    """Some of a thing that one person has on one trip."""

    day: int
    step: int
    way: tuple[str, str]
    person_id: str
    units: int


class Rides:
    """All rides of the things of a plan."""

    def __init__(self, plan: Document) -> None:
        self._rides: dict[str, list[Ride]] = {}
        for trip in plan["trips"]:
            for unit_id, has in by_unit(trip).items():
                self._rides.setdefault(unit_id, []).extend(
                    Ride(trip["day"], trip["step"], (trip["from"], trip["to"]), person_id, count)
                    for person_id, count in has.items()
                )

    def everybody(self, unit_id: str, *, person: Name = str) -> str:
        """Who carries some of a thing on which days, and how many at most."""
        rides = self._rides.get(unit_id, [])
        return "; ".join(
            f"{person(who)} takes {_at_most(own)} on {in_words(ride.day for ride in own)}"
            for who, own in _by_person(rides)
        )

    def others(self, keeper: Keeper, *, person: Name = str, place: Name = str) -> str:
        """Who else than its keeper has a thing and when; empty where nobody has."""
        rides = [_ride(one) for one in keeper.elsewhere]
        steps = {(ride.day, ride.step) for ride in self._rides.get(keeper.unit_id, ())}
        on_day = Counter(day for day, _ in steps)
        return "; ".join(
            f"{person(who)} on {_when(own, on_day, place)}" for who, own in _by_person(rides)
        )


def _by_person(rides: Iterable[Ride]) -> Iterator[tuple[str, list[Ride]]]:
    """People in the order in which they turn up, each with their rides."""
    theirs: dict[str, list[Ride]] = {}
    for ride in rides:
        theirs.setdefault(ride.person_id, []).append(ride)
    return iter(theirs.items())


def _ride(one: Elsewhere) -> Ride:
    way = (one.from_place, one.to_place)
    return Ride(one.day, one.step, way, one.person_id, one.count)


def _at_most(rides: list[Ride]) -> str:
    most = max(ride.units for ride in rides)
    return str(most) if min(ride.units for ride in rides) == most else f"up to {most}"


def _when(rides: list[Ride], steps: Counter[int], place: Name) -> str:
    """Days in order; where somebody has it on some of a day's trips only, with their way."""
    own = Counter(ride.day for ride in rides)
    part = {day for day in own if own[day] < steps[day]}

    def ways(day: int) -> str:
        joined = _joined(sorted(ride for ride in rides if ride.day == day))
        return " and ".join(f"{place(begin)} to {place(end)}" for begin, end in joined)

    return in_words(own, {day: ways(day) for day in part})


def _joined(rides: list[Ride]) -> list[tuple[str, str]]:
    """The ways of rides in order; what begins where the one before ended is one way with it."""
    ways: list[tuple[str, str]] = []
    last = 0
    for ride in rides:
        if ways and last == ride.step - 1 and ways[-1][1] == ride.way[0]:
            ways[-1] = (ways[-1][0], ride.way[1])
        else:
            ways.append(ride.way)
        last = ride.step
    return ways


def in_words(days: Iterable[int], remarks: Mapping[int, str] = MappingProxyType({})) -> str:
    """Days in order, three or more in a row as a range: `days 2-4, 7 (road to camp) and 9`."""
    every = sorted(set(days))
    parts = list(_runs(every, remarks))
    word = "day" if len(every) == 1 else "days"
    last = parts.pop()
    return f"{word} {', '.join(parts)} and {last}" if parts else f"{word} {last}"


def _runs(days: list[int], remarks: Mapping[int, str]) -> Iterator[str]:
    """Ranges and single days; a day with a remark stands alone."""
    plain = (day for day in days if day not in remarks)
    runs = [list(run) for _, run in groupby(enumerate(plain), lambda pair: pair[1] - pair[0])]
    found = [[day for _, day in run] for run in runs] + [[day] for day in remarks]
    for run in sorted(found):
        if len(run) > 2:
            yield f"{run[0]}-{run[-1]}"
        else:
            yield from (f"{day} ({remarks[day]})" if day in remarks else str(day) for day in run)
