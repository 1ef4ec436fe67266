"""The second goal where a former plan is given: as few units with other people as possible.

The peak may rise by a tolerance for it, or to what the former plan had for the rest. First come
rides as near to the former ones as half of it allows, since whole units need the rest, then each
trip for itself: its loads with the fewest changes, exactly. The rides of the plan with the least
peak, shared out the same way, are what it falls back on.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from solver.model.assignment.by_trip import join, riding_by_trip
from solver.model.assignment.draft import Draft, Held
from solver.model.assignment.former_loads import changes, had_by
from solver.model.assignment.load_fractions import peak_of, trip_fractions
from solver.model.formulation.flow_row import Rides
from solver.model.formulation.former import Former
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import spread_slack
from solver.model.goals.goal import SearchState, SearchTools
from solver.model.run import run_within
from solver.model.solvers.closest_trip import closest_trip
from solver.model.solvers.nearest_rides import nearest_rides
from solver.quantities import FRACTION_GRID

_RIDES_SHARE, _TRIP_SECONDS = 0.3, 0.5
"""Of the time left for the rides [1], and time for one trip [s]."""


def value(frame: Frame, draft: Draft) -> int:
    """Units that people have on a trip and did not have in the former plan [1]."""
    return 0 if frame.former is None else changes(frame.former, had_by(frame, draft))


def bound(_: SearchState) -> int | None:
    """Nothing is proven beyond that there are no fewer changes than none [1]."""
    return 0


def improve(state: SearchState, tools: SearchTools) -> SearchState:
    """Bring the plan near to the former one, under the peak and its tolerance."""
    frame, former = tools.frame, tools.frame.former
    if former is None:
        return state
    peak = peak_of(frame, state.draft)
    more = peak * tools.limits.near_tolerance // FRACTION_GRID
    limit = min(FRACTION_GRID, max(peak + more, tools.limits.near_peak))
    best, least = state.draft, value(frame, state.draft)
    peaks = tuple(dict.fromkeys((limit, (peak + limit) // 2, peak + more // 2, peak)))
    if tools.limits.near_peak <= peak + more:
        peaks = (peak + more // 2, peak)
    for rides in _candidates(state, former, tools, peaks=peaks):
        draft = _closest(rides, former, tools, limit)
        if draft is not None and value(frame, draft) < least:
            best, least = draft, value(frame, draft)
            break
    return replace(state, draft=best, trip_limits=tuple(trip_fractions(frame, best)))


def _candidates(
    state: SearchState, former: Former, tools: SearchTools, *, peaks: tuple[int, ...]
) -> Iterator[Rides]:
    """Rides near to the former ones under some peaks, then those of the state."""
    for peak in peaks:
        nearest = nearest_rides(
            tools.frame,
            former,
            tools.limits,
            peak_at_most=min(FRACTION_GRID, peak),
            seconds=_RIDES_SHARE * tools.watch.left(),
            should_stop=tools.watch.should_stop,
        )
        if nearest is not None:
            yield nearest
    yield state.draft.rides()


def _closest(rides: Rides, former: Former, tools: SearchTools, limit: int) -> Draft | None:
    """A draft with these rides and the fewest changes; None where a trip cannot be packed."""
    frame, watch = tools.frame, tools.watch
    slack = spread_slack(frame, rides)
    held: list[Held] = []
    for trip, units in enumerate(riding_by_trip(frame, rides)):
        if not units:
            held.append({})
            continue
        run = run_within(tools.limits, min(_TRIP_SECONDS, max(0.05, watch.left())), watch)
        found = closest_trip(frame, trip, units, slack[trip], run, former=former, limit=limit)
        if found is None:
            return None
        held.append(found)
    return join(held)


def keep_close(frame: Frame, before: SearchState, after: SearchState) -> SearchState:
    """What a later goal made of a state; only its bounds where that is further from the former."""
    if frame.former is None or value(frame, after.draft) <= value(frame, before.draft):
        return after
    return replace(before, bounds=after.bounds)
