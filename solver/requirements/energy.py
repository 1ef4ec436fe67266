"""Energy that each person needs on each day of the trip, put together part by part."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from solver.calculators.whole_day import resting_height_factor
from solver.problem import Direction, Person, Problem, Timeline, Trip
from solver.requirements.body import Body, read_body, resting_kcal_per_day
from solver.requirements.day_parts import (
    MOST_KCAL,
    MOVING_CAMP_WORK_H,
    OTHER_CAMP_WORK_H,
    WholeDay,
    whole_day,
)
from solver.requirements.energy_figures import (
    CAUTION,
    at_home,
    beyond_range,
    of_day,
    without_time,
)
from solver.requirements.exertion import Exertion, exertion
from solver.requirements.figures import Figure, Input, Notice, Part
from solver.requirements.ground import Ground, is_return, read_ground
from solver.requirements.loads import planning_loads
from solver.requirements.pace import KEPT_UP, Pace, pace, too_fast
from solver.requirements.snow import Snow, read_snow
from solver.requirements.surroundings import PRACTICE, as_given, assumed
from solver.requirements.travel import Hours, hours_by_trip

HIGHEST_M = 8849
LOWEST_M = -430


@dataclass(frozen=True, slots=True)
class DayNeed:
    """What one person needs on one day; the parts add up to it."""

    whole: WholeDay
    efforts: tuple[Exertion, ...]
    inputs: tuple[Input, ...]

    @property
    def kcal(self) -> float:
        """Energy of the day [kcal]."""
        return self.whole.kcal


@dataclass(frozen=True, slots=True)
class Needs:
    """Bodies and days, by person and by person and day; every day of every person has a figure."""

    bodies: dict[str, Body]
    days: dict[tuple[str, int], DayNeed]
    notices: tuple[Notice, ...]


@lru_cache(maxsize=4)
def read_needs(problem: Problem, timeline: Timeline) -> Needs:
    """What everybody needs each day; equal trips of equal people are computed once.

    The last few problems are kept, since food asks for the same needs as energy.
    """
    hours, _ = hours_by_trip(problem, timeline)
    by_day: dict[tuple[str, int], list[Trip]] = {}
    for trip in timeline.trips:
        for person_id in trip.person_ids:
            by_day.setdefault((person_id, trip.day), []).append(trip)
    bodies = {person.person_id: read_body(problem, person) for person in problem.roster}
    day_needs = _DayNeeds(problem, hours, first_trips(timeline))
    days: dict[tuple[str, int], DayNeed] = {}
    for person in problem.roster:
        body = bodies[person.person_id]
        if body.held:
            day_needs.say(beyond_range((("person_id", person.person_id),), body.held))
        resting = resting_kcal_per_day(body) / 24
        for day in range(1, len(problem.calendar.days) + 1):
            trips = tuple(by_day.get((person.person_id, day), ()))
            days[person.person_id, day] = day_needs.day(person, body, day, trips, resting)
    for trip, worst in day_needs.paces.values():
        day_needs.say(too_fast(trip, worst))
    return Needs(bodies, days, tuple(day_needs.notices))


def first_trips(timeline: Timeline) -> frozenset[int]:
    """The trips, by index, that are the first over their leg; at one moment all count."""
    moments: dict[str, int] = {}
    for trip in timeline.trips:
        moments.setdefault(trip.leg.leg_id, trip.moment)
    return frozenset(
        trip.index for trip in timeline.trips if trip.moment == moments[trip.leg.leg_id]
    )


def energy(problem: Problem, timeline: Timeline) -> Part:
    """Resting, ordinary and daily energy of each person [kcal/day]."""
    needs = read_needs(problem, timeline)
    figures: list[Figure] = []
    for person_id, body in needs.bodies.items():
        figures += at_home(person_id, body)
    for (person_id, day), need in needs.days.items():
        figures += of_day(person_id, day, need.whole, need.efforts, need.inputs)
    return Part(tuple(figures), (*needs.notices, CAUTION))


class _DayNeeds:
    """Keeps what trips cost, so that equal ones are computed once, and the notices to give."""

    def __init__(self, problem: Problem, hours: dict[int, Hours], first: frozenset[int]) -> None:
        self.problem = problem
        self.hours = hours
        self.first = first
        self.guides = frozenset(one.person_id for one in problem.roster if one.is_guide)
        self.snows: dict[tuple[object, ...], Snow] = {}
        self.known: dict[tuple[object, ...], Exertion] = {}
        self.grounds: dict[tuple[object, ...], Ground] = {}
        self.notices: dict[Notice, None] = {}
        self.paces: dict[tuple[str, Direction], tuple[Trip, Pace]] = {}

    def say(self, notice: Notice) -> None:
        """Keep a notice once."""
        self.notices[notice] = None

    def day(
        self, person: Person, body: Body, day: int, trips: tuple[Trip, ...], resting: float
    ) -> DayNeed:
        """The need of a person's day from all its parts."""
        visit = self.problem.calendar.days[day - 1].visit_of(person.rope_team_id)
        elevation_m = self.problem.route.place(visit.places[-1]).elevation_m
        held_m = min(HIGHEST_M, max(LOWEST_M, elevation_m))
        factor = resting_height_factor(elevation_m=held_m)
        efforts = tuple(
            self._effort(person, body, trip, is_return(trip, trips), resting * factor)
            for trip in trips
        )
        moves = visit.places[0] != visit.places[-1]
        camp_h = MOVING_CAMP_WORK_H if moves else OTHER_CAMP_WORK_H
        whole = whole_day(
            resting_kcal_per_hour=resting * factor,
            body_mass_kg=float(body.mass.value),
            travel_h=sum(effort.hours for effort in efforts),
            camp_work_h=camp_h,
            travel_kcal=sum(effort.walking_kcal for effort in efforts),
            sled_kcal=sum(effort.sled_kcal for effort in efforts),
            travel_off_kcal=sum(effort.off_kcal for effort in efforts),
        )
        if whole.kcal > MOST_KCAL - 1:
            self.say(
                beyond_range(
                    (("person_id", person.person_id), ("day", day)),
                    (f"a day beyond what anybody spent is taken as {MOST_KCAL:.0f} kcal",),
                )
            )
        why = "a day on which the camp moves" if moves else "a day that ends where it began"
        inputs = (
            as_given("elevation", elevation_m, "m"),
            assumed(
                "resting_elevation_factor", round(factor, 4), "times", "rest at that elevation"
            ),
            assumed("camp_work_hours", camp_h, "h", f"{why}: {PRACTICE}"),
        )
        return DayNeed(whole, efforts, inputs)

    def _effort(
        self,
        person: Person,
        body: Body,
        trip: Trip,
        returning: bool,  # noqa: FBT001
        resting: float,
    ) -> Exertion:
        hours = self.hours.get(trip.index)
        loads = planning_loads(self.problem, person, trip, returning=returning)
        about = (("leg_id", trip.leg.leg_id), ("direction", trip.direction.value))
        at = (trip.leg.leg_id, trip.direction, trip.step, hours and hours.value)
        if at not in self.grounds:
            self.grounds[at] = read_ground(self.problem, trip, hours)
            if self.grounds[at].notice:
                self.say(without_time(about, self.grounds[at].notice))
        snow = self._snow(trip, person)
        key = (*at, body.mass.value, round(resting, 6), loads.pack, loads.sled, snow)
        if key not in self.known:
            self.known[key] = exertion(
                self.grounds[at],
                snow,
                loads,
                f"_step_{trip.step}",
                body_mass_kg=float(body.mass.value),
                resting_kcal_per_hour=resting,
            )
            if self.known[key].held:
                self.say(beyond_range(about, self.known[key].held))
            self._judge_pace(person, body, trip, self.known[key], resting)
        return self.known[key]

    def _judge_pace(
        self, person: Person, body: Body, trip: Trip, effort: Exertion, resting: float
    ) -> None:
        """Keep the hardest pace of each leg and direction whose hours are given."""
        given = (
            trip.leg.hours_outbound
            if trip.direction is Direction.OUTBOUND
            else trip.leg.hours_homeward
        )
        if given is None:
            return
        found = pace(self.problem, trip, body, effort, person.person_id, resting=resting)
        at = (trip.leg.leg_id, trip.direction)
        if (
            found
            and found.share > KEPT_UP
            and found.share > self.paces.get(at, (trip, found))[1].share - 1e-9
        ):
            self.paces[at] = (trip, found)

    def _snow(self, trip: Trip, person: Person) -> Snow:
        first_time = trip.index in self.first
        key = (trip.leg.leg_id, len(trip.person_ids), person.is_guide, first_time)
        guides = len(self.guides.intersection(trip.person_ids))
        if (*key, guides) not in self.snows:
            self.snows[*key, guides] = read_snow(
                self.problem, trip, person.person_id, first_time=first_time
            )
        return self.snows[*key, guides]
