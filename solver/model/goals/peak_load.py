"""The first goal: the largest load fraction of anybody on any trip.

The plan at hand comes from the relaxation and from packing its trips. Here the model in one
piece lowers its peak, or proves that it cannot be lower.
"""

from __future__ import annotations

from dataclasses import replace

from solver.model.assignment.draft import Draft
from solver.model.assignment.load_fractions import better_of, peak_of
from solver.model.formulation.frame import Frame
from solver.model.goals.goal import SearchState, SearchTools
from solver.model.run import run_within
from solver.model.solvers.solve_one_piece import is_small_enough, least_peak
from solver.quantities import FRACTION_GRID
from solver.rulebook.goals import PEAK_LOAD

_SHARE = 0.6
"""Which part of the time left the model in one piece may take [1]."""

_SHORT_SECONDS, _SHORT_LIMIT = 0.5, 2_500
"""Time for a proof where the gap is small already [s], and up to how many (cargo, trip) pairs."""


def value(frame: Frame, draft: Draft) -> int:
    """The largest load fraction [1/10,000]."""
    return peak_of(frame, draft)


def bound(state: SearchState) -> int | None:
    """What the relaxation, packing and the model in one piece have proven [1/10,000]."""
    return state.bounds[PEAK_LOAD]


def improve(state: SearchState, tools: SearchTools) -> SearchState:
    """Prove the peak or lower it with the model in one piece."""
    frame, known = tools.frame, state.bounds[PEAK_LOAD]
    peak = peak_of(frame, state.draft)
    seconds = _SHARE * tools.watch.left()
    if (peak - known) * FRACTION_GRID <= tools.limits.gap * peak:
        # Near enough, but a small model may yet be proven in no time.
        seconds = min(seconds, _SHORT_SECONDS if len(frame.may_carry) <= _SHORT_LIMIT else 0.0)
    if peak == known or not is_small_enough(frame) or seconds <= 0:
        return state
    run = run_within(tools.limits, seconds, tools.watch)
    answer = least_peak(frame, run, hint=state.draft, at_least=known)
    draft = state.draft if answer.draft is None else better_of(frame, state.draft, answer.draft)
    return replace(state, draft=draft).with_bound(PEAK_LOAD, max(known, answer.bound))
