"""The goals of the search, each a module, in the order of the rulebook's register."""

from __future__ import annotations

from solver.model.formulation.frame import Frame
from solver.model.goals import (
    closeness,
    hard_days,
    mass_ascent,
    peak_load,
    preferences,
    repackings,
    swaps,
)
from solver.model.goals.goal import Goal, SearchState, SearchTools
from solver.plan import GoalValue
from solver.rulebook.goals import goals_asked

_MODULES: dict[str, Goal] = {
    "peak_load": peak_load,
    "closeness": closeness,
    "hard_days": hard_days,
    "mass_ascent": mass_ascent,
    "preferences": preferences,
    "swaps": swaps,
    "repackings": repackings,
}


def goals_of(frame: Frame) -> tuple[tuple[str, Goal], ...]:
    """The goals of a frame in their order, each with its module."""
    asked = goals_asked(with_former=frame.former is not None)
    return tuple((goal.goal_id, _MODULES[goal.goal_id]) for goal in asked)


def improved(goal: Goal, state: SearchState, tools: SearchTools) -> SearchState:
    """What a goal makes of a state, unless it is further from a former plan than before.

    The peak comes before being close, so it may be.
    """
    after = goal.improve(state, tools)
    return after if goal is peak_load else closeness.keep_close(tools.frame, state, after)


def goal_values(frame: Frame, state: SearchState) -> tuple[GoalValue, ...]:
    """What the draft of a state comes to by every goal, and what is proven of it."""
    values = []
    for goal in goals_asked(with_former=frame.former is not None):
        module = _MODULES[goal.goal_id]
        value, bound = module.value(frame, state.draft), module.bound(state)
        proven = bound is not None and value - bound <= goal.precision * value
        values.append(GoalValue(goal.goal_id, value, bound, proven, goal.unit))
    return tuple(values)


__all__ = ["Goal", "SearchState", "SearchTools", "goal_values", "goals_of", "improved"]
