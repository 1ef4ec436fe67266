"""Hours on the way: what the leg says, else a published method times a factor for loads."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from solver.calculators.travel_time import (
    din_33466_hours,
    langmuir_hours,
    loaded_hours,
    munter_hours,
    munter_rate,
    naismith_1892_hours,
    tobler_1993_km_per_hour,
)
from solver.problem import Direction, Leg, Problem, Timeline, TravelMethod, Trip
from solver.requirements.figures import Figure, Input, Notice, Part
from solver.requirements.surroundings import PRACTICE, as_given, as_given_or, assumed, out_of_range

DEFAULT_METHOD = TravelMethod.MUNTER
WHY_MUNTER = f"made for snow, and its one rate can be calibrated on the way: {PRACTICE}"
SLED_FACTOR = 2.0
PACK_FACTOR = 1.5
LONGEST_DAY_H = 8.0
OFF_TRACK_KM_H = 4.0
GENTLE_FROM = math.tan(math.radians(5))
STEEP_FROM = math.tan(math.radians(12))

_SOURCES = {
    TravelMethod.NAISMITH: ("km / 5 + m up / 600", "Naismith 1892, SMC Journal 2:136", "read"),
    TravelMethod.LANGMUIR: (
        "km / 4 + m up / 600 - 10 min per 300 m gently down + 10 min per 300 m steeply down",
        "Langmuir, Mountaincraft and Leadership",
        "quoted",
    ),
    TravelMethod.TOBLER: (
        "km / (0.6 × 6 exp(-3.5 |slope + 0.05|))",
        "Tobler 1993, NCGIA Technical Report 93-1",
        "read",
    ),
    TravelMethod.DIN_33466: (
        "longer + half the shorter of km / 4 and m up / 300 + m down / 500",
        "DIN 33466, through alpine clubs' texts",
        "quoted",
    ),
    TravelMethod.MUNTER: (
        "(km + m / 100) / rate; rate 4 up, 6 on the flat and down",
        "Munter, 3x3 Lawinen; form read, rates from memory",
        "memory-unverified",
    ),
}


@dataclass(frozen=True, slots=True)
class Way:
    """A leg in the direction walked; None where the request does not say how far it is."""

    distance: Input | None
    ascent: Input
    descent: Input

    @property
    def grade(self) -> float | None:
        """Steepness of its climbs and of its descents alike, rise over run [1]."""
        if self.distance is None or not float(self.distance.value):
            return None
        return (float(self.ascent.value) + float(self.descent.value)) / float(self.distance.value)

    @property
    def share_up(self) -> float:
        """Share of the distance that climbs; a flat way counts as climbing at no slope [1]."""
        climbed_m = float(self.ascent.value) + float(self.descent.value)
        return float(self.ascent.value) / climbed_m if climbed_m else 1.0


@dataclass(frozen=True, slots=True)
class Hours:
    """Time of one trip with its provenance [h]."""

    value: float
    formula: str
    source: str
    status: str
    inputs: tuple[Input, ...]


def read_way(problem: Problem, leg: Leg, direction: Direction) -> Way:
    """Distance, ascent and descent as walked; elevations not given come from the places' own."""
    places = problem.route
    rise_m = places.place(leg.to_place).elevation_m - places.place(leg.from_place).elevation_m
    source = "difference in elevation of the two places, no up and down between"
    up = _metres("ascent", leg.ascent_m, max(0, rise_m), source)
    down = _metres("descent", leg.descent_m, max(0, -rise_m), source)
    if direction is Direction.HOMEWARD:
        up, down = (
            Input("ascent", down.value, "m", down.is_default, down.source),
            Input("descent", up.value, "m", up.is_default, up.source),
        )
    distance = None if leg.distance_m is None else as_given("distance", leg.distance_m, "m")
    return Way(distance, up, down)


def trip_hours(problem: Problem, trip: Trip) -> Hours:
    """Hours of a trip: the leg's own, else the method's times the factor for loads [h].

    Raises ValueError where the leg gives neither hours nor distance, and outside the range of
    the method.
    """
    up = trip.direction is Direction.OUTBOUND
    given = trip.leg.hours_outbound if up else trip.leg.hours_homeward
    if given is not None:
        name = "hours_outbound" if up else "hours_homeward"
        source = "the leg's own hours, which win over any method"
        leg_hours = (as_given(name, given, "h"),)
        return Hours(given, "as given with the leg", source, "computed", leg_hours)
    way = read_way(problem, trip.leg, trip.direction)
    if way.distance is None:
        raise ValueError(
            f"leg {trip.leg.leg_id} has neither hours for this direction nor a distance; "
            "give one of them."
        )
    wanted = problem.conditions.travel_method
    method = wanted or DEFAULT_METHOD
    named = as_given("travel_method", method.value, "")
    if wanted is None:
        named = assumed("travel_method", method.value, "", WHY_MUNTER)
    factor = as_given_or(
        "travel_factor",
        problem.conditions.travel_factor,
        SLED_FACTOR if trip.sled_ids else PACK_FACTOR,
        "times",
    )
    hours = loaded_hours(unloaded_hours=_unloaded(method, way), load_factor=float(factor.value))
    formula, source, status = _SOURCES[method]
    return Hours(
        hours,
        f"travel factor × ({formula})",
        f"{source}; the factor for loads, sleds and ropes is an assumption",
        status,
        (named, factor, way.distance, way.ascent, way.descent),
    )


def hours_by_trip(
    problem: Problem, timeline: Timeline
) -> tuple[dict[int, Hours], tuple[Notice, ...]]:
    """Hours of every trip that has them, by index, and a notice for each leg that has none."""
    known: dict[tuple[str, Direction, bool], Hours | None] = {}
    notices: list[Notice] = []
    for trip in timeline.trips:
        key = _kind(trip)
        if key in known:
            continue
        try:
            known[key] = trip_hours(problem, trip)
        except ValueError as error:
            known[key] = None
            about = (("leg_id", trip.leg.leg_id), ("direction", trip.direction.value))
            notices.append(out_of_range("travel_time", about, error))
    found = {trip.index: known[_kind(trip)] for trip in timeline.trips}
    return {index: hours for index, hours in found.items() if hours}, tuple(notices)


def travel(problem: Problem, timeline: Timeline) -> Part:
    """Hours of each trip and of each party's day, and which days are too long [h]."""
    hours, notices = hours_by_trip(problem, timeline)
    figures = tuple(
        Figure(
            "travel_time",
            (
                ("day", trip.day),
                ("step", trip.step),
                ("from_place", trip.from_place),
                ("to_place", trip.to_place),
                ("person_id", trip.person_ids[0]),
                ("people", len(trip.person_ids)),
            ),
            hours[trip.index].value,
            "h",
            hours[trip.index].formula,
            hours[trip.index].source,
            hours[trip.index].status,
            hours[trip.index].inputs,
        )
        for trip in timeline.trips
        if trip.index in hours
    )
    return Part(figures, (*notices, *_long_days(timeline, hours), *_caution(hours)))


def _long_days(timeline: Timeline, hours: dict[int, Hours]) -> Iterator[Notice]:
    days: dict[tuple[int, str], float] = {}
    for trip in timeline.trips:
        for person_id in trip.person_ids:
            if trip.index in hours:
                key = (trip.day, person_id)
                days[key] = days.get(key, 0.0) + hours[trip.index].value
    people_of: dict[tuple[int, float], list[str]] = {}
    for (day, person_id), total in days.items():
        if total > LONGEST_DAY_H + 1e-9:
            people_of.setdefault((day, total), []).append(person_id)
    for (day, total), people in people_of.items():
        who = people[0] if len(people) == 1 else f"{people[0]} and {len(people) - 1} more"
        yield Notice(
            "travel_day_long",
            (("day", day), ("person_id", people[0]), ("people", len(people))),
            f"Day {day}: {total:.1f} h on the way for {who}; 6 to 8 h with loads is what "
            f"parties plan for ({PRACTICE}). Give hours with the legs, or part the day.",
        )


def _caution(hours: dict[int, Hours]) -> Iterator[Notice]:
    if any(each.inputs[0].name == "travel_method" for each in hours.values()):
        yield Notice(
            "travel_time_calibrate",
            (),
            "Published travel times are for light packs on paths near sea level; the factor for "
            "loads is an assumption. Calibrate it with the party's first days.",
            is_caution=True,
        )


def _kind(trip: Trip) -> tuple[str, Direction, bool]:
    return trip.leg.leg_id, trip.direction, bool(trip.sled_ids)


def _metres(name: str, given_m: int | None, default_m: int, source: str) -> Input:
    if given_m is None:
        return assumed(name, default_m, "m", source)
    return as_given(name, given_m, "m")


def _unloaded(method: TravelMethod, way: Way) -> float:
    """Hours by the method itself; a way up and down is parted by what it gains and loses."""
    if way.distance is None:
        raise ValueError("distance: none was given; give the length of the leg.")
    km = float(way.distance.value) / 1000
    up_m, down_m = float(way.ascent.value), float(way.descent.value)
    grade = way.grade or 0.0
    km_up, km_down = km * way.share_up, km * (1 - way.share_up)
    if method is TravelMethod.NAISMITH:
        return naismith_1892_hours(distance_km=km, ascent_m=up_m)
    if method is TravelMethod.DIN_33466:
        return din_33466_hours(distance_km=km, ascent_m=up_m, descent_m=down_m)
    if method is TravelMethod.LANGMUIR:
        steep = grade > STEEP_FROM
        return langmuir_hours(
            distance_km=km,
            ascent_m=up_m,
            gentle_descent_m=down_m if grade >= GENTLE_FROM and not steep else 0.0,
            steep_descent_m=down_m if steep else 0.0,
            flat_speed_km_per_h=OFF_TRACK_KM_H,
        )
    if method is TravelMethod.TOBLER:
        up_h = km_up / tobler_1993_km_per_hour(slope=grade, surface="off_path")
        return up_h + km_down / tobler_1993_km_per_hour(slope=-grade, surface="off_path")
    flat_or_down = munter_rate(movement="flat_or_down_on_foot")
    uphill = munter_rate(movement="up_on_foot_or_ski") if up_m else flat_or_down
    up_h = munter_hours(distance_km=km_up, height_change_m=up_m, rate_units_per_hour=uphill)
    return up_h + munter_hours(
        distance_km=km_down, height_change_m=down_m, rate_units_per_hour=flat_or_down
    )
