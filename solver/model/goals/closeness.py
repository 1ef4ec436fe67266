"""The second goal where a former plan is given: as few units with other people as possible.

The peak may rise by a tolerance for it, or to what the former plan had for the rest. First come
rides as near to the former ones as half of it allows, since whole units need the rest, then each
trip for itself: its loads with the fewest changes, exactly. The rides of the plan with the least
peak, shared out the same way, are what it falls back on.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from solver.model.assignment.draft import Draft
from solver.model.assignment.former_loads import changes, had_by
from solver.model.assignment.load_fractions import peak_of, trip_fractions
from solver.model.formulation.frame import Frame
from solver.model.goals.goal import SearchState, SearchTools
from solver.model.goals.near_draft import Near
from solver.quantities import FRACTION_GRID


def value(frame: Frame, draft: Draft) -> int:
    """Units that people have on a trip and did not have in the former plan [1]."""
    return 0 if frame.former is None else changes(frame.former, had_by(frame, draft))


def bound(_: SearchState) -> int | None:
    """Nothing is proven beyond that there are no fewer changes than none [1]."""
    return 0


def improve(state: SearchState, tools: SearchTools) -> SearchState:
    """Bring the plan near to the former one, under the peak and its tolerance."""
    frame = tools.frame
    if frame.former is None:
        return state
    near = Near(frame, frame.former, tools.limits, tools.watch, tools.first)
    best, least = state.draft, value(frame, state.draft)
    for draft in _candidates(state.draft, near):
        if draft is not None and value(frame, draft) < least:
            best = draft
            break
    return replace(state, draft=best, trip_limits=tuple(trip_fractions(frame, best)))


def _candidates(draft: Draft, near: Near) -> Iterator[Draft | None]:
    """Drafts with rides near to the former ones under some peaks, then with those of a draft.

    When time is over, the first plan of the search is all that there is.
    """
    peak = peak_of(near.frame, draft)
    more, known = peak * near.limits.near_tolerance // FRACTION_GRID, near.limits.near_peak
    limit = min(FRACTION_GRID, max(peak + more, known))
    peaks: tuple[int, ...] = (limit, (peak + limit) // 2, peak + more // 2, peak)
    if known <= peak + more:
        peaks = (peak + more // 2, peak)
    for at_most in dict.fromkeys(peaks):
        if not near.watch.is_over():
            rides = near.rides(at_most)
            yield None if rides is None else near.shared_out(rides, limit)
    if near.first is not None and peak_of(near.frame, near.first.draft) <= limit:
        yield near.first.draft
    if not near.watch.is_over():
        yield near.shared_out(draft.rides(), limit)


def keep_close(frame: Frame, before: SearchState, after: SearchState) -> SearchState:
    """What a later goal made of a state; only its bounds where that is further from the former."""
    if frame.former is None or value(frame, after.draft) <= value(frame, before.draft):
        return after
    return replace(before, bounds=after.bounds)
