"""Streaks that are too long, broken up on the latest day that will do."""

from __future__ import annotations

from collections.abc import Sequence

from solver.model.assignment.by_trip import by_trip, join
from solver.model.assignment.draft import Draft
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import spread_slack
from solver.model.goals.repair import repair
from solver.model.goals.soft_constraint import SoftConstraints, violated
from solver.model.goals.streaks import long_streaks, next_highest, no_more_than
from solver.model.packing.held_trip import load_trip
from solver.model.work import Work


def break_streaks(
    frame: Frame,
    draft: Draft,
    constraints: SoftConstraints,
    limits: Sequence[int],
    work: Work,
) -> Draft:
    """Break up streaks that are too long, on the latest day that will do."""
    for _ in range(len(long_streaks(frame, draft))):
        if work.is_over():
            break
        better = _break_one(frame, draft, constraints, limits, work)
        if better is None:
            break
        draft = better
    return draft


def _break_one(
    frame: Frame,
    draft: Draft,
    constraints: SoftConstraints,
    limits: Sequence[int],
    work: Work,
) -> Draft | None:
    """A draft with fewer long streaks and no more violated constraints; None if there is none."""
    streaks = long_streaks(frame, draft)
    most = frame.world.problem.rules.whole("heaviest_days")
    for streak in streaks:
        for day in reversed(streak.days[: most + 1]):
            other = _relieved(frame, draft, constraints, limits, (day, streak.person_id), work=work)
            if other is not None and len(long_streaks(frame, other)) < len(streaks):
                return other
    return None


def _relieved(
    frame: Frame,
    draft: Draft,
    constraints: SoftConstraints,
    limits: Sequence[int],
    on: tuple[int, str],
    *,
    work: Work,
) -> Draft | None:
    """A draft where others carry as much on a day as the person whose streak it is."""
    day, person_id = on
    percent = next_highest(frame, draft, day, person_id)
    held = by_trip(frame, draft)
    slack = spread_slack(frame, draft.rides())
    for trip in frame.world.timeline.trips:
        if trip.day != day or person_id not in trip.person_ids:
            continue
        constraint = no_more_than(frame, trip.index, person_id, percent)
        of_trip = (*constraints[trip.index], constraint)
        before = violated(frame, trip.index, held[trip.index], of_trip)
        if violated(frame, trip.index, held[trip.index], (constraint,)) == 0:
            continue
        load = load_trip(frame, trip.index, held[trip.index], slack[trip.index])
        if repair(load, of_trip, limit=limits[trip.index], work=work) >= before:
            return None
        held[trip.index] = load.held()
        if violated(frame, trip.index, held[trip.index], (constraint,)) > 0:
            return None
    return join(held)
