"""Time as the ledger sees it: states of the world, and the events that lead to the next.

State 0 is the start. Every moment of travel and every night is one event; event e turns
state e−1 into state e. A trip takes its load from state e−1 and puts it down in state e; a
night uses food and fuel of state e−1.
"""

from __future__ import annotations

from dataclasses import dataclass

from solver.problem import History, Timeline, Trip

Stop = tuple[int, str]
"""A state, and the place where a cargo must stand in it."""


@dataclass(frozen=True, slots=True)
class Clock:
    """`trip_event[t]` is the event of trip t, `night_event[d]` that of the night of day d."""

    trip_event: tuple[int, ...]
    night_event: dict[int, int]
    trips_at: tuple[tuple[Trip, ...], ...]
    last: int

    def moment(self, history: History) -> int:
        """The last event that is over: that of a night, or of the trips of a day [event]."""
        nights = [event for day, event in self.night_event.items() if day <= history.nights]
        trips = [
            event
            for event, its_trips in enumerate(self.trips_at)
            if any(trip.day <= history.day for trip in its_trips)
        ]
        return max([0, *nights, *trips])


def read_clock(timeline: Timeline) -> Clock:
    """Put moments and nights of a timeline in one order."""
    stops = [(moment, 0) for moment in sorted({t.moment for t in timeline.trips})]
    stops += [(night.moment, night.day) for night in timeline.nights]
    stops.sort()
    event = {stop: number for number, stop in enumerate(stops, start=1)}
    trips_at: list[list[Trip]] = [[] for _ in range(len(stops) + 1)]
    for trip in timeline.trips:
        trips_at[event[trip.moment, 0]].append(trip)
    return Clock(
        trip_event=tuple(event[trip.moment, 0] for trip in timeline.trips),
        night_event={night.day: event[night.moment, night.day] for night in timeline.nights},
        trips_at=tuple(tuple(trips) for trips in trips_at),
        last=len(stops),
    )
