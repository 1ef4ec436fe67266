"""Where the units of one id stand at every time, followed through loads and nights.

Each unit id is followed alone, for no unit's whereabouts depend on another's. A plan with a
fault can ask for a unit where it does not stand. Two stories can explain that: the unit was
left behind by mistake and was meant to be here, or this load is the mistake and the unit is
rightly elsewhere. Each story is followed to the end of the trip and the one that leaves the
fewest further faults is believed, so that one slip of the pen is found once. Units that stand
nowhere are found missing and then forgotten: they never arrive.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from solver.checker.ledger.times import START, Time

Counts = Mapping[str, int]


class Event(NamedTuple):
    """Units taken from a place (`change` below 0) or put there, at a time.

    A `leg` joins the departure and the arrival of one trip: what arrives is what left.
    """

    time: Time
    place_id: str
    change: int
    leg: int | None = None


@dataclass(frozen=True, slots=True)
class Shortage:
    """Units that an event wanted and its place did not have."""

    event: Event
    wanted: int
    there: int

    @property
    def missing(self) -> int:
        """How many too few [1]."""
        return self.wanted - self.there


@dataclass(frozen=True, slots=True)
class Course:
    """How many units of one id stand at each place from each time on, and what fell short."""

    times: tuple[Time, ...]
    counts: tuple[Counts, ...]
    shortages: tuple[Shortage, ...]

    def at(self, time: Time) -> Counts:
        """How many stand at each place at a time, what happens at that very time included."""
        return self.counts[bisect_right(self.times, time) - 1]

    def before(self, time: Time) -> Counts:
        """How many stand at each place just before a time."""
        return self.counts[max(bisect_left(self.times, time) - 1, 0)]

    def least(self, place_id: str, begins: Time, ends: Time) -> tuple[int, Time]:
        """Fewest that stand at a place from one time until before another, and since when."""
        lows = [(self.at(begins).get(place_id, 0), begins)]
        lows.extend(
            (counts.get(place_id, 0), time)
            for time, counts in zip(self.times, self.counts, strict=True)
            if begins < time < ends
        )
        return min(lows)


@dataclass(frozen=True, slots=True)
class _Ground:
    """The start place, and for each place all the others, the nearest first."""

    home: str
    nearest: Mapping[str, Sequence[str]]


class _Walk:
    """The state of one unit id on the way through its events."""

    def __init__(self, standing: dict[str, int], moved: dict[int, int]) -> None:
        self.standing = standing
        self.moved = moved

    def copy(self) -> _Walk:
        """The same state, to try how a story goes on."""
        return _Walk(dict(self.standing), dict(self.moved))

    def step(self, event: Event) -> int:
        """Do what can be done of an event and give how many are missing [1]."""
        if event.change < 0:
            return self.take(event, event.place_id, -event.change)
        arriving = event.change if event.leg is None else self.moved.get(event.leg, 0)
        self.standing[event.place_id] = self.standing.get(event.place_id, 0) + arriving
        return 0

    def take(self, event: Event, source: str, wanted: int) -> int:
        """Take what an event wants from where it stands and give how many are missing [1]."""
        taken = min(wanted, self.standing.get(source, 0))
        if taken:
            self.standing[source] -= taken
            if event.leg is not None:
                self.moved[event.leg] = self.moved.get(event.leg, 0) + taken
        return wanted - taken


def follow(
    events: Sequence[Event], *, provided: int, home: str, nearest: Mapping[str, Sequence[str]]
) -> Course:
    """Follow one unit id from the start place through its events in order of time.

    `nearest` gives for each place all the others, the nearest first.
    """
    ground = _Ground(home, nearest)
    walk = _Walk({home: provided}, {})
    times: list[Time] = [START]
    counts: list[Counts] = [dict(walk.standing)]
    shortages: list[Shortage] = []
    for index, event in enumerate(events):
        missing = walk.step(event)
        if missing:
            wanted = -event.change
            shortages.append(Shortage(event, wanted, wanted - missing))
            _explain(walk, event, missing, events[index + 1 :], ground)
        if event.time == times[-1]:
            counts[-1] = dict(walk.standing)
        else:
            times.append(event.time)
            counts.append(dict(walk.standing))
    return Course(tuple(times), tuple(counts), tuple(shortages))


def _explain(
    walk: _Walk, event: Event, missing: int, later: Sequence[Event], ground: _Ground
) -> None:
    """Take missing units from where they stand as long as that leaves no more faults later."""
    while missing:
        best, fewest = None, _faults(walk.copy(), later, ground)
        for source in reversed(ground.nearest[event.place_id]):
            if walk.standing.get(source, 0) > 0:
                tried = walk.copy()
                tried.take(event, source, missing)
                faults = _faults(tried, later, ground)
                if faults <= fewest:
                    best, fewest = source, faults
        if best is None:
            return
        missing = walk.take(event, best, missing)


def _faults(walk: _Walk, later: Sequence[Event], ground: _Ground) -> int:
    """Units that are missing later or away from home at the end, were this walk to go on."""
    faults = 0
    for event in later:
        missing = walk.step(event)
        faults += missing
        for source in ground.nearest[event.place_id]:
            if not missing:
                break
            missing = walk.take(event, source, missing)
    return faults + sum(count for place, count in walk.standing.items() if place != ground.home)
