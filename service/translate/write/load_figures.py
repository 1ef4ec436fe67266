"""The gross loads of one person on one trip, and what share of the caps they are."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from solver.plan import Load, Plan
from solver.problem import Problem, Timeline, Trip
from solver.quantities import FRACTION_GRID, fraction_up, share_down, share_up, whole_down

Binding = Literal["pack", "sled", "total", "limit"]


@dataclass(frozen=True, slots=True)
class LoadFigures:
    """Gross masses and caps [g], and the largest of them as a fraction [1/10,000].

    `limit_g` is the person's load limit, None for nobody weak or hurt; no cap is told above it.
    """

    pack_g: int
    pack_cap_g: int
    sled_g: int
    sled_cap_g: int
    limit_g: int | None
    fraction: int
    binding: Binding


def figures_of(problem: Problem, trip: Trip, load: Load) -> LoadFigures:
    """The figures of one load; its fraction is the largest of pack, sled and both."""
    person = problem.person(load.person_id)
    pack_g = sum(s.count * s.mass_g for s in load.pack) + load.water_g + load.lunch_g
    pack_cap_g = person.caps.pack_on(trip.leg.mode, trip.direction)
    sled_g = sled_cap_g = 0
    sled = next((s for s in problem.sleds if s.sled_id == load.sled_id), None)
    if load.sled_id is not None:
        sled_g = (sled.tare_g if sled else 0) + sum(s.count * s.mass_g for s in load.sled)
        pulls = sled.shares() if sled else ((person.person_id, 100),)
        sled_cap_g = min(
            whole_down(
                amount=share_down(
                    amount=problem.person(who).caps.sled_g, percent=trip.sled_factor_percent
                ),
                percent=part,
            )
            for who, part in pulls
        )
    fractions: list[tuple[int, Binding]] = [
        (share_of_cap(load_g=pack_g, cap_g=pack_cap_g), "pack"),
        (share_of_cap(load_g=sled_g, cap_g=sled_cap_g), "sled"),
    ]
    shared = sled is not None and sled.second_hauler_id is not None
    total_binds = problem.must_keep("total_cap_held") and not shared
    if load.sled_id is not None and person.caps.total_g is not None and total_binds:
        total_g = pack_g + sled_g
        fractions.append((share_of_cap(load_g=total_g, cap_g=person.caps.total_g), "total"))
    # A limit that was set on the way says nothing of trips that are over.
    limit_g = None if problem.is_over(trip.day) else person.load_limit_g
    if limit_g is not None:
        limited_g = pack_g + _pulled_g(problem, trip, load, sled_g)
        fractions.append((share_of_cap(load_g=limited_g, cap_g=limit_g), "limit"))
        pack_cap_g = min(pack_cap_g, limit_g)
        sled_cap_g = sled_cap_g if shared else min(sled_cap_g, limit_g)
    fraction, binding = max(fractions, key=lambda pair: pair[0])
    return LoadFigures(pack_g, pack_cap_g, sled_g, sled_cap_g, limit_g, fraction, binding)


def _pulled_g(problem: Problem, trip: Trip, load: Load, sled_g: int) -> int:
    """What somebody with a load limit pulls: the sled, or of one for two a share of its limit."""
    for sled in problem.sleds:
        percent = dict(sled.shares()).get(load.person_id, 0)
        if percent % 100 and sled.sled_id in trip.sled_ids:
            limit_g = share_down(amount=sled.mass_limit_g, percent=trip.sled_factor_percent)
            return share_up(amount=limit_g, percent=percent)
    return sled_g


def share_of_cap(*, load_g: int, cap_g: int) -> int:
    """A load as a share of its cap, rounded up [1/10,000].

    Anything on a cap of zero has no share; the service shows it as loaded twice over.
    """
    if cap_g > 0 or load_g == 0:
        return fraction_up(load_g=load_g, cap_g=cap_g)
    return 2 * FRACTION_GRID


@dataclass(frozen=True, slots=True)
class WeighedLoad:
    """A load of a plan, with its trip and figures."""

    trip: Trip
    person_id: str
    figures: LoadFigures


def peak_of(problem: Problem, timeline: Timeline, plan: Plan) -> WeighedLoad | None:
    """Where a plan is heaviest on what is to come; the first such load, None for none."""
    return max(loads_of(problem, timeline, plan), key=lambda p: p.figures.fraction, default=None)


def loads_of(problem: Problem, timeline: Timeline, plan: Plan) -> Iterator[WeighedLoad]:
    """Every load of somebody known on a trip of the calendar that is not over."""
    to_come = (trip for trip in timeline.trips if not problem.is_over(trip.day))
    trips = {(t.day, t.step, t.from_place, t.to_place): t for t in to_come}
    people = {person.person_id for person in problem.roster}
    for told in plan.trips:
        trip = trips.get((told.day, told.step, told.from_place, told.to_place))
        for load in told.loads if trip is not None else ():
            if trip is not None and load.person_id in people:
                yield WeighedLoad(trip, load.person_id, figures_of(problem, trip, load))
