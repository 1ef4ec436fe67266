"""Energy that each person needs: at rest, on an ordinary day, and on each day of the trip."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from solver.calculators.daily_energy import daily_energy_kcal
from solver.problem import Person, Problem, Timeline, Trip
from solver.requirements.body import (
    RESTING_FORMULA,
    RESTING_SOURCE,
    TOTAL_FORMULA,
    TOTAL_SOURCE,
    Body,
    inactive_kcal_per_day,
    read_body,
    resting_kcal_per_day,
)
from solver.requirements.exertion import (
    Exertion,
    Stretch,
    exertion,
    is_return,
    planning_loads,
    read_stretch,
)
from solver.requirements.figures import Figure, Input, Notice, Part
from solver.requirements.surroundings import PRACTICE, assumed, out_of_range
from solver.requirements.travel import Hours, hours_by_trip

WALKING_SOURCE = (
    "uphill and level Pandolf, Givoni and Goldman 1977, J Appl Physiol 43:577-581; downhill "
    "Santee et al. 2003; from memory, unverified"
)
SLED_SOURCE = "mechanics of a block on an incline"
DAY_SOURCE = f"book-keeping of gross rates: {PRACTICE}"

_EffortKey = tuple[object, ...]


@dataclass(frozen=True, slots=True)
class DayNeed:
    """What one person needs on one day; `bookkept_kcal` before the floor of an ordinary day."""

    kcal: float
    bookkept_kcal: float
    efforts: tuple[Exertion, ...]


@dataclass(frozen=True, slots=True)
class Needs:
    """Bodies, and the days that could be reckoned, by person and by person and day."""

    bodies: dict[str, Body]
    days: dict[tuple[str, int], DayNeed]
    notices: tuple[Notice, ...]


@lru_cache(maxsize=4)
def read_needs(problem: Problem, timeline: Timeline) -> Needs:
    """What everybody needs each day, equal trips of equal people being reckoned once.

    The last few problems are kept, since food asks for the same needs as energy.
    """
    hours, _ = hours_by_trip(problem, timeline)
    by_day: dict[tuple[str, int], list[Trip]] = {}
    for trip in timeline.trips:
        for person_id in trip.person_ids:
            by_day.setdefault((person_id, trip.day), []).append(trip)
    bodies = {person.person_id: read_body(problem, person) for person in problem.roster}
    reckoning = _Reckoning(problem, hours)
    days: dict[tuple[str, int], DayNeed] = {}
    for person in problem.roster:
        body = bodies[person.person_id]
        try:
            resting, floor = resting_kcal_per_day(body), inactive_kcal_per_day(body)
        except ValueError as error:
            about = (("person_id", person.person_id),)
            reckoning.notices[str(error)] = out_of_range("day_energy", about, error)
            continue
        for day in range(1, len(problem.calendar.days) + 1):
            trips = tuple(by_day.get((person.person_id, day), ()))
            need = reckoning.day(person, body, trips, resting, floor=floor)
            if need is not None:
                days[person.person_id, day] = need
    return Needs(bodies, days, tuple(reckoning.notices.values()))


def energy(problem: Problem, timeline: Timeline) -> Part:
    """Resting, ordinary and daily energy of each person [kcal/day]."""
    needs = read_needs(problem, timeline)
    figures: list[Figure] = []
    notices: list[Notice] = list(needs.notices)
    for person_id, body in needs.bodies.items():
        try:
            figures += _at_home(person_id, body)
        except ValueError as error:
            about = (("person_id", person_id),)
            notices.append(out_of_range("resting_energy", about, error))
    for (person_id, day), need in needs.days.items():
        figures += _of_day(person_id, day, needs.bodies[person_id], need)
    notices.append(
        Notice(
            "energy_reads_low",
            (),
            "The equation for walking reads 12 to 33 % low with heavy loads (Drain et al. 2017, "
            "quoted), and cold and height may raise the need by 15 to 50 % (a US military "
            "nutrition manual, read). Neither is added, and camp work counts as rest. On an ascent "
            "to 6170 m 4173 kcal a day, more or less 848, were measured (Wilderness Environ Med "
            "2013;24:337-344, read): food beyond the need shown is no reason to take less.",
            is_caution=True,
        )
    )
    return Part(tuple(figures), tuple(notices))


class _Reckoning:
    """Keeps what trips cost, so that equal ones are reckoned once, and what could not be."""

    def __init__(self, problem: Problem, hours: dict[int, Hours]) -> None:
        self.problem = problem
        self.hours = hours
        self.known: dict[_EffortKey, Exertion] = {}
        self.stretches: dict[_EffortKey, Stretch] = {}
        self.notices: dict[str, Notice] = {}

    def day(
        self, person: Person, body: Body, trips: tuple[Trip, ...], resting: float, *, floor: float
    ) -> DayNeed | None:
        """The need of a day, never below the floor; None, with a notice, where it has none."""
        efforts: list[Exertion] = []
        about: tuple[tuple[str, str | int], ...] = (("person_id", person.person_id),)
        try:
            for trip in trips:
                about = (("leg_id", trip.leg.leg_id), ("direction", trip.direction.value))
                efforts.append(self._effort(person, body, trip, returning=is_return(trip, trips)))
            kcal = daily_energy_kcal(
                activity_hours=[h for effort in efforts for h in effort.hours],
                activity_kcal_per_hour=[r for effort in efforts for r in effort.kcal_per_hour],
                extra_work_kcal=sum(effort.sled_kcal for effort in efforts),
                resting_kcal_per_hour=resting / 24,
            )
        except ValueError as error:
            key = f"{about}: {error}"
            # What follows advises a programmer which function to call instead.
            plain = ValueError(str(error).split(" For a", 1)[0])
            self.notices.setdefault(key, out_of_range("day_energy", about, plain))
            return None
        return DayNeed(max(kcal, floor), kcal, tuple(efforts))

    def _effort(self, person: Person, body: Body, trip: Trip, *, returning: bool) -> Exertion:
        if trip.index not in self.hours:
            raise ValueError(f"the hours of leg {trip.leg.leg_id} are not known.")
        loads = planning_loads(self.problem, person, trip, returning=returning)
        hours = self.hours[trip.index]
        ground = (trip.leg.leg_id, trip.direction, trip.step, bool(trip.sled_ids), hours.value)
        if ground not in self.stretches:
            self.stretches[ground] = read_stretch(self.problem, trip, hours)
        sled = None if loads.sled is None else loads.sled.value
        key = (*ground, body.mass.value, loads.pack.value, sled, returning)
        if key not in self.known:
            self.known[key] = exertion(self.stretches[ground], body, loads)
        return self.known[key]


def _at_home(person_id: str, body: Body) -> tuple[Figure, Figure]:
    about = (("person_id", person_id),)
    return (
        Figure(
            "resting_energy",
            about,
            resting_kcal_per_day(body),
            "kcal/day",
            RESTING_FORMULA,
            RESTING_SOURCE,
            "memory-unverified",
            body.inputs,
        ),
        Figure(
            "total_energy",
            about,
            inactive_kcal_per_day(body),
            "kcal/day",
            TOTAL_FORMULA,
            TOTAL_SOURCE,
            "quoted",
            (*body.inputs, assumed("activity", "inactive", "", f"a day in camp: {PRACTICE}")),
        ),
    )


def _of_day(person_id: str, day: int, body: Body, need: DayNeed) -> list[Figure]:
    about = (("person_id", person_id), ("day", day))
    figures = []
    inputs = tuple(each for effort in need.efforts for each in effort.inputs)
    walked = sum(effort.walking_kcal for effort in need.efforts)
    hauled = sum(effort.sled_kcal for effort in need.efforts)
    if need.efforts:
        figures.append(
            Figure(
                "walking_energy",
                about,
                walked,
                "kcal",
                "gross rate × hours, over the climbs and descents of all trips",
                WALKING_SOURCE,
                "memory-unverified",
                (body.mass, *inputs),
            )
        )
    if hauled > 0:
        pulled: tuple[Input, ...] = tuple(each for each in inputs if "sled" in each.name)
        figures.append(
            Figure(
                "sled_energy",
                about,
                hauled,
                "kcal",
                "m g (friction cos a + sin a) × distance / efficiency, never below 0",
                SLED_SOURCE,
                "computed",
                (*pulled, *(each for each in inputs if each.name.startswith("muscular"))),
            )
        )
    by_floor = need.bookkept_kcal < need.kcal
    figures.append(
        Figure(
            "day_energy",
            about,
            need.kcal,
            "kcal",
            "an ordinary inactive day, which is more than the trips and rest add up to"
            if by_floor
            else "walking + sled + resting energy of the other hours only",
            TOTAL_SOURCE if by_floor else DAY_SOURCE,
            "quoted" if by_floor else "practice",
            (*body.inputs, *(each for each in inputs if each.name.startswith("hours"))),
        )
    )
    return figures
