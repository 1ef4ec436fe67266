"""The goal of preferences: how many are violated, and fewer of them under each trip's limit.

Which units ride on which trip does not change, nor how full any trip may get: the goals before
are kept. Nothing is proven of how few there must be.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

import numpy as np

from solver.model.assignment.by_trip import Held, by_trip, join, riding
from solver.model.assignment.draft import Draft
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import Slack, spread_slack
from solver.model.goals.repair import bar_equipment, repair
from solver.model.goals.soft_constraints import SoftConstraint, violated
from solver.model.goals.streaks import long_streaks, next_highest, no_more_than
from solver.model.packing.empty_trip import empty_trip
from solver.model.packing.swaps import lower_peak
from solver.model.packing.trip_load import TripLoad
from solver.progress import Watch

_SHARE = 0.1
"""Of the time that the solve has taken, what this goal may take on top [1]."""


Asked = Sequence[Sequence[SoftConstraint]]
"""The soft_constraints of each trip."""


def preferences(frame: Frame, draft: Draft, asked: Asked) -> int:
    """How many of the preferences that the search steers by a draft breaks [1]."""
    held = by_trip(frame, draft)
    on_trips = sum(violated(frame, t, held[t], asked[t]) for t in range(len(asked)) if asked[t])
    return on_trips + len(long_streaks(frame, draft))


def prefer(frame: Frame, draft: Draft, asked: Asked, limits: list[int], watch: Watch) -> Draft:
    """A draft that breaks fewer preferences, its trips under their limits [1/10,000]."""
    held = by_trip(frame, draft)
    slack = spread_slack(frame, draft.rides())
    waiting = [(violated(frame, t, held[t], asked[t]), t) for t in range(len(asked)) if asked[t]]
    last = _last_call(watch)
    is_over = partial(_is_over, watch, last)
    for before, trip in sorted(waiting, key=lambda pair: (len(held[pair[1]]), pair[1])):
        if is_over():
            break
        if before == 0:
            continue
        load = loaded(frame, trip, held[trip], slack[trip])
        fewest = repair(load, asked[trip], limit=limits[trip], is_over=is_over)
        if fewest < before:
            held[trip] = held_by(load, trip)
        if any(
            constraint.equipment and violated(frame, trip, held[trip], [constraint])
            for constraint in asked[trip]
        ):
            load = loaded(frame, trip, held[trip], slack[trip])
            if _equipment_put_right(load, asked[trip], limits[trip], is_over) < min(fewest, before):
                held[trip] = held_by(load, trip)
    better = _break_streaks(frame, join(held), asked, limits, is_over)
    before, after = (preferences(frame, one, asked) for one in (draft, better))
    return better if after < before else draft


def _equipment_put_right(
    load: TripLoad, of_trip: Sequence[SoftConstraint], limit: int, is_over: Callable[[], bool]
) -> int:
    """Move equipment out of where it should not be, even out the rest; count what is violated [1].

    Where that fails the answer is one more than there are constraints: too many to be better.
    """
    bar_equipment(load, of_trip)
    away = ~load.able[np.arange(len(load.where)), load.where]
    if not load.able.any(axis=1).all():
        return len(of_trip) + 1
    for piece in np.flatnonzero(away).tolist():
        level = load.levels_with(piece)
        if not np.isfinite(level).any():
            return len(of_trip) + 1
        load.put(piece, int(level.argmin()))
    if lower_peak(load, target=limit, most_moves=150) > limit:
        return len(of_trip) + 1
    return repair(load, of_trip, limit=limit, is_over=is_over)


def loaded(frame: Frame, trip: int, held: Held, slack: Slack) -> TripLoad:
    """A trip's loads as arrays."""
    load = empty_trip(frame, trip, riding(held), slack)
    number = {carrier_id: at for at, carrier_id in enumerate(load.carriers)}
    free: dict[int, list[int]] = {}
    for piece, cargo in enumerate(load.cargo.tolist()):
        free.setdefault(cargo, []).append(piece)
    for (cargo, carrier_id), units in held.items():
        for _ in range(units):
            load.put(free[cargo].pop(), number[carrier_id])
    return load


def held_by(load: TripLoad, trip: int) -> Held:
    """The units of a trip by cargo and carrier."""
    return {(cargo, carrier): n for (cargo, _, carrier), n in load.carried(trip).items()}


def _break_streaks(
    frame: Frame, draft: Draft, asked: Asked, limits: list[int], is_over: Callable[[], bool]
) -> Draft:
    """Break up streaks that are too long, on the latest day that will do."""
    for _ in range(len(long_streaks(frame, draft))):
        if is_over():
            break
        better = _streak_broken(frame, draft, asked, limits)
        if better is None:
            break
        draft = better
    return draft


def _streak_broken(frame: Frame, draft: Draft, asked: Asked, limits: list[int]) -> Draft | None:
    """A draft with fewer long streaks and no more violated constraints; None if there is none."""
    streaks = long_streaks(frame, draft)
    most = frame.world.problem.rules.whole("heaviest_days")
    for streak in streaks:
        for day in reversed(streak.days[: most + 1]):
            other = _relieved(frame, draft, asked, limits, (day, streak.person_id))
            if other is not None and len(long_streaks(frame, other)) < len(streaks):
                return other
    return None


def _relieved(
    frame: Frame, draft: Draft, asked: Asked, limits: list[int], streak: tuple[int, str]
) -> Draft | None:
    """A draft where others carry as much on a day as the person whose streak it is."""
    day, person_id = streak
    percent = next_highest(frame, draft, day, person_id)
    held = by_trip(frame, draft)
    slack = spread_slack(frame, draft.rides())
    for trip in frame.world.timeline.trips:
        if trip.day != day or person_id not in trip.person_ids:
            continue
        constraint = no_more_than(frame, trip.index, person_id, percent)
        of_trip = (*asked[trip.index], constraint)
        before = violated(frame, trip.index, held[trip.index], of_trip)
        if violated(frame, trip.index, held[trip.index], (constraint,)) == 0:
            continue
        load = loaded(frame, trip.index, held[trip.index], slack[trip.index])
        if repair(load, of_trip, limit=limits[trip.index]) >= before:
            return None
        held[trip.index] = held_by(load, trip.index)
        if violated(frame, trip.index, held[trip.index], (constraint,)) > 0:
            return None
    return join(held)


def _last_call(watch: Watch) -> float:
    """When to stop, on the solve's own clock [s]."""
    return watch.elapsed() * (1 + _SHARE)


def _is_over(watch: Watch, last: float) -> bool:
    """Whether time is up; a steady watch never lets the clock decide."""
    return watch.left() <= 0 or (not watch.steady and watch.elapsed() > last)
