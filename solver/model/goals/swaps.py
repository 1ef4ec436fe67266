"""The last goal but one: units that one person sets down and another takes up, weighted.

Which units ride on which trip does not change here, and no trip passes its limit. All trips are
one problem (`steady/`). At last whoever has the least cap gives to others what they have room for,
and more, at the price of swaps, while their mean share is above the party's.
A linear program bounds how few swaps these rides allow. If a former plan is given, people keep what
they had: being close to it comes first, and loads that are dealt out anew are further from it.
"""

from __future__ import annotations

import math
from dataclasses import replace

from solver.model.assignment.draft import Draft
from solver.model.formulation.frame import Frame
from solver.model.goals.goal import SearchState, SearchTools
from solver.model.goals.preferences import count_violated
from solver.model.goals.soft_constraint import SoftConstraints
from solver.model.goals.soft_constraints import soft_constraints
from solver.model.goals.steady.costs import Prices
from solver.model.goals.steady.deal_out import deal_out
from solver.model.goals.steady.expedition import read_expedition
from solver.model.goals.steady.least_swaps import least_swaps
from solver.model.goals.steady.paths import better_paths
from solver.model.goals.steady.relieve import relieve
from solver.model.goals.streak_repair import break_streaks
from solver.model.goals.swap_counts import weighted_swaps
from solver.model.work import work_within

_STEADY_SHARE = 2.4
"""Of a steady stage's work, what this goal may take [1]."""

_PAIRS_PART, _WINDOWS_PART = 0.55, 0.8
"""Of the time left on the clock, after what part of it pairs on full trips end, and after what part
the trips with room are settled only [1]."""


def value(frame: Frame, draft: Draft) -> int:
    """Swaps of a draft, each times its weight [1]."""
    return weighted_swaps(frame, draft)


def bound(state: SearchState) -> int | None:
    """A bound for plans with the same rides under the same limits of trips [1]."""
    return state.bounds.get("swaps", 0)


def improve(state: SearchState, tools: SearchTools) -> SearchState:
    """Deal the loads out again, with fewer swaps and no more preferences broken."""
    frame, constraints = tools.frame, soft_constraints(tools.frame)

    work = work_within(tools.watch, steady_share=_STEADY_SHARE, racing_share=math.inf)
    if frame.former is not None:
        as_it_is = read_expedition(frame, state.draft, constraints, state.trip_limits)
        return state.with_bound("swaps", least_swaps(as_it_is, work))
    before = state.draft
    # Cheap and near: each unit's cheapest way by itself, for what a stop leaves undealt.
    quick = read_expedition(frame, before, constraints, state.trip_limits)
    better_paths(quick, Prices(), work.is_over, most_rounds=1)
    dealt = deal_out(
        frame,
        before,
        constraints,
        state.trip_limits,
        work,
        otherwise=quick.draft(),
        pairs_over=tools.watch.part_over(_PAIRS_PART),
        windows_over=tools.watch.part_over(_WINDOWS_PART),
    )
    offered = [before, quick.draft(), dealt]
    if not work.is_over():
        offered.append(break_streaks(frame, dealt, constraints, state.trip_limits, work))
    ranks = [_rank(frame, draft, constraints) for draft in offered]
    least = min(ranks)
    best = offered[ranks.index(least)]
    if work.should_stop():
        return replace(state, draft=best)
    for pay in (False, True):
        relieved = relieve(frame, best, constraints, state.trip_limits, work, pay=pay)
        # Who has the highest load for days is asked of all trips together: it may be another now.
        if count_violated(frame, relieved, constraints) <= least[0]:
            best = relieved
    expedition = read_expedition(frame, best, constraints, state.trip_limits)
    return replace(state, draft=best).with_bound("swaps", least_swaps(expedition, work))


def _rank(frame: Frame, draft: Draft, constraints: SoftConstraints) -> tuple[int, int]:
    return count_violated(frame, draft, constraints), weighted_swaps(frame, draft)
