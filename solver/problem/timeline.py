"""The calendar read as trips and nights: who travels which leg when, who sleeps where."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from solver.problem.problem import Problem
from solver.problem.route import Direction, Leg, LegMode


@dataclass(frozen=True, slots=True)
class Trip:
    """One party on one leg: the moment when loads are on people.

    `moment` orders trips over the whole calendar: trips of one moment leave together, before
    any of them arrives. `sled_ids` are the sleds hauled, each by one or two of the party.
    """

    index: int
    moment: int
    day: int
    step: int
    from_place: str
    to_place: str
    leg: Leg
    direction: Direction
    person_ids: tuple[str, ...]
    sled_ids: tuple[str, ...]

    @property
    def sled_factor_percent(self) -> int:
        """What share of the sleds' mass limits holds on this trip [per cent]."""
        up = self.direction is Direction.OUTBOUND
        return (
            self.leg.sled_factor_outbound_percent if up else self.leg.sled_factor_homeward_percent
        )


@dataclass(frozen=True, slots=True)
class Night:
    """The night after a day: where each person sleeps. It follows all trips up to `moment`.

    `elsewhere` are the places of those who have not joined yet or have left.
    """

    day: int
    moment: int
    sleeps_at: tuple[tuple[str, str], ...]
    elsewhere: tuple[tuple[str, str], ...] = ()

    def place_of(self, person_id: str) -> str:
        """Where a person sleeps or was met or left the others; KeyError for an unknown person."""
        for sleeper, place in (*self.sleeps_at, *self.elsewhere):
            if sleeper == person_id:
                return place
        raise KeyError(person_id)

    def sleepers_at(self, place_id: str) -> tuple[str, ...]:
        """Who sleeps at a place, in roster order."""
        return tuple(person for person, place in self.sleeps_at if place == place_id)


@dataclass(frozen=True, slots=True)
class Timeline:
    """All trips in order of moment, then of visits in their day; all nights in order.

    Moments count from 1; moment 0 is the start, when everything stands at the start place.
    The last day has no night. `last_moment` is the end of the trip.
    """

    trips: tuple[Trip, ...]
    nights: tuple[Night, ...]
    last_moment: int

    def trip_of(self, person_id: str, day: int, step: int) -> Trip | None:
        """The trip that a person makes as a step of a day; None where there is none."""
        for trip in self.trips:
            if (trip.day, trip.step) == (day, step) and person_id in trip.person_ids:
                return trip
        return None


def read_timeline(problem: Problem) -> Timeline:
    """Read the calendar of a problem without faults into trips and nights."""
    route = problem.route
    sled_place = {sled.sled_id: problem.start_place for sled in problem.sleds}
    here_on = [(p.person_id, p.rope_team_id, p.presence) for p in problem.everybody]
    trips: list[Trip] = []
    nights: list[Night] = []
    moment = 0
    for number, day in enumerate(problem.calendar.days, start=1):
        longest = max(len(visit.places) for visit in day.visits)
        for step in range(longest - 1):
            moment += 1
            for visit in day.visits:
                if step + 1 >= len(visit.places):
                    continue
                here, there = visit.places[step], visit.places[step + 1]
                leg = route.leg_between(here, there)
                people = tuple(
                    person
                    for person, team, presence in here_on
                    if team in visit.rope_team_ids and presence.travels_on(number)
                )
                if not people:
                    continue
                sleds = _hauled(
                    problem, people, leg, [s for s, p in sled_place.items() if p == here], number
                )
                sled_place |= dict.fromkeys(sleds, there)
                trips.append(
                    Trip(
                        index=len(trips),
                        moment=moment,
                        day=number,
                        step=step + 1,
                        from_place=here,
                        to_place=there,
                        leg=leg,
                        direction=Direction.OUTBOUND
                        if leg.from_place == here
                        else Direction.HOMEWARD,
                        person_ids=people,
                        sled_ids=sleds,
                    )
                )
        if number < len(problem.calendar.days):
            nights.append(
                Night(
                    day=number,
                    moment=moment,
                    sleeps_at=tuple(
                        (person, day.visit_of(team).places[-1])
                        for person, team, presence in here_on
                        if presence.sleeps_on(number)
                    ),
                    elsewhere=tuple(
                        (person, presence.place_id or problem.start_place)
                        for person, _, presence in here_on
                        if not presence.sleeps_on(number)
                    ),
                )
            )
    return Timeline(tuple(trips), tuple(nights), moment)


def _hauled(
    problem: Problem, people: tuple[str, ...], leg: Leg, standing: Collection[str], day: int
) -> tuple[str, ...]:
    """The sleds of those standing there that a party hauls along a leg, in roster order."""
    if leg.mode is not LegMode.SLED:
        return ()
    hauled_by = {sled.hauler_id: sled for sled in problem.sleds}
    return tuple(
        sled.sled_id
        for person_id in people
        if (sled := hauled_by.get(person_id)) is not None
        and sled.sled_id in standing
        and sled.second_hauler_id in (None, *people)
        and (sled.last_day is None or day <= sled.last_day)
    )
