"""The search: from rows to the best plan and what is proven of it.

1. The greedy plan is what no answer may be worse than. Near to a former plan, a first plan with
   few changes follows at once.
2. The relaxation's linear program bounds the peak. With the peak held there, relax and fix says
   which units ride on which trip.
3. Each trip is packed for itself. Where that fails the model in one piece looks for a plan.
4. The goals follow in their order, each without giving up the ones before.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from solver.model.assignment.draft import Draft
from solver.model.assignment.load_fractions import better_of, peak_of
from solver.model.construction.greedy_plan import GreedyPlan, greedy_plan
from solver.model.construction.pack_relaxed import pack_relaxed
from solver.model.formulation.frame import Frame
from solver.model.goals import SearchState, SearchTools, goal_values, goals_of, improved
from solver.model.goals.mass_ascent import limits_of_trips
from solver.model.goals.near_draft import NearDraft, first_near
from solver.model.solvers.relaxation import build_relaxation
from solver.model.solvers.relaxed_plans import relaxed_plans
from solver.model.solvers.solve_one_piece import first_draft
from solver.outcome import Limits
from solver.plan import GoalValue
from solver.progress import Watch
from solver.rulebook.goals import PEAK_LOAD

_AFTERWARDS = 3.0
"""Time kept for what comes after the search, in times of the greedy plan [1]: ending the step at
hand, settling flights again, and writing and checking the plan take about one each."""

_FOR_SHARING_OUT = 0.4
"""Of the time after the peak, what is kept for sharing the loads out among people [1]. Trips that
are a little lower are no use to anybody where everything changes hands on every one of them."""
_SHARING_OUT = "preferences"
"""The first of the goals that leave the rides as they are and share them out."""

_NEAR = "closeness"


@dataclass(frozen=True, slots=True)
class SearchResult:
    """What the search ended with; `infeasible` says that no plan can exist.

    Without a draft `bound` is what is known of the peak [1/10,000].
    """

    draft: Draft | None
    bound: int
    infeasible: bool = False
    goals: tuple[GoalValue, ...] = ()
    greedy_peak: int | None = None
    greedy_reason: str = ""


def search(frame: Frame, limits: Limits, watch: Watch, begin: Draft | None = None) -> SearchResult:
    """Look for the plan with the least peak, then for the best of those by the later goals.

    A draft to begin from is kept until a better one is found.
    """
    greedy = greedy_plan(frame, limits, watch)
    draft = _better(frame, begin, greedy.draft)
    watch.finish_stage("greedy", _peak(frame, draft), 0)
    watch.keep_back(_AFTERWARDS * watch.elapsed())

    first = _first_plan(frame, limits, watch)
    draft = draft if first is None else _better(frame, draft, first.draft)
    if draft is not None and watch.should_stop():
        state = SearchState(draft if first is None else first.draft, {PEAK_LOAD: 0})
        return _result(frame, state, greedy)

    relaxation = build_relaxation(
        frame,
        steady=not limits.racing,
        seed=limits.seed,
        should_stop=watch.is_over,
    )
    relaxed = relaxed_plans(relaxation, limits, watch, start=greedy.rides, peak=_peak(frame, draft))
    if relaxed.infeasible:
        return SearchResult(draft, relaxed.bound, infeasible=True)

    packed = pack_relaxed(frame, relaxed, limits, watch, has_draft=draft is not None)
    draft, bound, goals = _better(frame, draft, packed.draft), packed.bound, goals_of(frame)
    watch.finish_stage("packing", _peak(frame, draft), bound)
    if draft is None:
        answer = first_draft(frame, limits, watch, at_least=bound)
        draft, bound = answer.draft, max(bound, answer.bound)
        if draft is None:
            return SearchResult(None, bound, infeasible=answer.infeasible)
        # The model in one piece has had its time for the peak.
        goals = goals[1:]

    state = SearchState(draft, {PEAK_LOAD: bound})
    tools = SearchTools(relaxation, relaxed, limits, watch, first)
    watch.keep_for_later(_FOR_SHARING_OUT)
    for goal_id, goal in goals:
        if goal_id == _SHARING_OUT:
            watch.keep_for_later(0.0)
            state = _with_limits(state, tools)
        # Being near to a former plan is chosen from what there is, though time is over.
        if watch.left() > 0 or (first is not None and goal_id == _NEAR):
            state = improved(goal, state, tools)
        peak = peak_of(frame, state.draft)
        watch.finish_stage(goal_id.replace("_", " "), peak, state.bounds[PEAK_LOAD])
    return _result(frame, state, greedy)


def _first_plan(frame: Frame, limits: Limits, watch: Watch) -> NearDraft | None:
    """A plan with few changes against the former one, told as soon as there is one."""
    if watch.should_stop():
        return None
    first = first_near(frame, limits, watch)
    if first is not None:
        watch.finish_stage("first plan", peak_of(frame, first.draft), 0)
    return first


def _result(frame: Frame, state: SearchState, greedy: GreedyPlan) -> SearchResult:
    """What a search ended with, and what its greedy plan came to."""
    return SearchResult(
        state.draft,
        state.bounds[PEAK_LOAD],
        goals=goal_values(frame, state),
        greedy_peak=_peak(frame, greedy.draft),
        greedy_reason=greedy.reason,
    )


def _with_limits(state: SearchState, tools: SearchTools) -> SearchState:
    """The state with limits of its trips; the goal that sets them may have had no time."""
    if state.trip_limits:
        return state
    limits = limits_of_trips(state.draft, tools, peak_of(tools.frame, state.draft))
    return replace(state, trip_limits=limits)


def _better(frame: Frame, kept: Draft | None, offered: Draft | None) -> Draft | None:
    if kept is None or offered is None:
        return kept or offered
    return better_of(frame, kept, offered)


def _peak(frame: Frame, draft: Draft | None) -> int | None:
    return None if draft is None else peak_of(frame, draft)
