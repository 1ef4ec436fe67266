"""The goal of preferences: how many are broken, and fewer of them under each trip's limit.

Which units ride on which trip does not change, nor how full any trip may get: the goals before
are kept. Nothing is proven of how few there must be.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

import numpy as np

from solver.model.assignment.by_trip import Held, by_trip, join, riding
from solver.model.assignment.read_plan import Draft
from solver.model.formulation.flow_balance import rooms
from solver.model.formulation.frame import Frame
from solver.model.goals.repair_moves import ease, keep_kit_away
from solver.model.goals.soft_constraints import Wish, broken
from solver.model.goals.streaks import next_highest, no_more_than, too_long
from solver.model.packing.swaps import lower_peak
from solver.model.packing.trip_load import Room, TripLoad, empty_trip
from solver.progress import Watch

_SHARE = 0.1
"""Of the time that the solve has taken, what this goal may take on top [1]."""


Asked = Sequence[Sequence[Wish]]
"""The wishes of each trip."""


def preferences(frame: Frame, draft: Draft, asked: Asked) -> int:
    """How many of the preferences that the search steers by a draft breaks [1]."""
    held = by_trip(frame, draft)
    on_trips = sum(broken(frame, t, held[t], asked[t]) for t in range(len(asked)) if asked[t])
    return on_trips + len(too_long(frame, draft))


def prefer(frame: Frame, draft: Draft, asked: Asked, limits: list[int], watch: Watch) -> Draft:
    """A draft that breaks fewer preferences, its trips under their limits [1/10,000]."""
    held = by_trip(frame, draft)
    room = rooms(frame, draft.rides())
    waiting = [(broken(frame, t, held[t], asked[t]), t) for t in range(len(asked)) if asked[t]]
    last = _last_call(watch)
    is_over = partial(_is_over, watch, last)
    for before, trip in sorted(waiting, key=lambda pair: (len(held[pair[1]]), pair[1])):
        if is_over():
            break
        if before == 0:
            continue
        load = loaded(frame, trip, held[trip], room[trip])
        fewest = ease(load, asked[trip], limit=limits[trip], is_over=is_over)
        if fewest < before:
            held[trip] = held_by(load, trip)
        if any(wish.kit and broken(frame, trip, held[trip], [wish]) for wish in asked[trip]):
            load = loaded(frame, trip, held[trip], room[trip])
            if _kit_put_right(load, asked[trip], limits[trip], is_over) < min(fewest, before):
                held[trip] = held_by(load, trip)
    better = _take_turns(frame, join(held), asked, limits, is_over)
    before, after = (preferences(frame, one, asked) for one in (draft, better))
    return better if after < before else draft


def _kit_put_right(
    load: TripLoad, of_trip: Sequence[Wish], limit: int, is_over: Callable[[], bool]
) -> int:
    """Shut all kit out of where it should not be and even out the rest; how many are broken [1].

    One for each wish and one more where that fails: too much to be better.
    """
    keep_kit_away(load, of_trip)
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
    return ease(load, of_trip, limit=limit, is_over=is_over)


def loaded(frame: Frame, trip: int, held: Held, room: Room) -> TripLoad:
    """A trip's loads as arrays."""
    load = empty_trip(frame, trip, riding(held), room)
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


def _take_turns(
    frame: Frame, draft: Draft, asked: Asked, limits: list[int], is_over: Callable[[], bool]
) -> Draft:
    """Break up turns that are too long, at the latest day that will do."""
    for _ in range(len(too_long(frame, draft))):
        if is_over():
            break
        better = _broken_up(frame, draft, asked, limits)
        if better is None:
            break
        draft = better
    return draft


def _broken_up(frame: Frame, draft: Draft, asked: Asked, limits: list[int]) -> Draft | None:
    """A draft with fewer turns too long and no more wishes broken; None where there is none."""
    turns = too_long(frame, draft)
    most = frame.world.problem.rules.whole("heaviest_days")
    for turn in turns:
        for day in reversed(turn.days[: most + 1]):
            other = _relieved(frame, draft, asked, limits, (day, turn.person_id))
            if other is not None and len(too_long(frame, other)) < len(turns):
                return other
    return None


def _relieved(
    frame: Frame, draft: Draft, asked: Asked, limits: list[int], turn: tuple[int, str]
) -> Draft | None:
    """A draft where others carry as much on a day as the person whose turn it is."""
    day, person_id = turn
    percent = next_highest(frame, draft, day, person_id)
    held = by_trip(frame, draft)
    room = rooms(frame, draft.rides())
    for trip in frame.world.timeline.trips:
        if trip.day != day or person_id not in trip.person_ids:
            continue
        wish = no_more_than(frame, trip.index, person_id, percent)
        of_trip = (*asked[trip.index], wish)
        before = broken(frame, trip.index, held[trip.index], of_trip)
        if broken(frame, trip.index, held[trip.index], (wish,)) == 0:
            continue
        load = loaded(frame, trip.index, held[trip.index], room[trip.index])
        if ease(load, of_trip, limit=limits[trip.index]) >= before:
            return None
        held[trip.index] = held_by(load, trip.index)
        if broken(frame, trip.index, held[trip.index], (wish,)) > 0:
            return None
    return join(held)


def _last_call(watch: Watch) -> float:
    """When to stop, on the solve's own clock [s]."""
    return watch.elapsed() * (1 + _SHARE)


def _is_over(watch: Watch, last: float) -> bool:
    """Whether time is up; a steady watch never lets the clock decide."""
    return watch.left() <= 0 or (not watch.steady and watch.elapsed() > last)
