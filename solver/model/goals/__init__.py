"""The goals of the search, each a module, in the order of the rulebook's register."""

from __future__ import annotations

from solver.model.formulation.frame import Frame
from solver.model.goals import hard_days, mass_ascent, peak_load, preferences, swaps
from solver.model.goals.goal import Goal, SearchState, SearchTools
from solver.plan import GoalValue
from solver.rulebook.goals import GOALS as REGISTER

_MODULES: dict[str, Goal] = {
    "peak_load": peak_load,
    "hard_days": hard_days,
    "mass_ascent": mass_ascent,
    "preferences": preferences,
    "swaps": swaps,
}

GOALS: tuple[tuple[str, Goal], ...] = tuple(
    (goal.goal_id, _MODULES[goal.goal_id]) for goal in REGISTER
)


def goal_values(frame: Frame, state: SearchState) -> tuple[GoalValue, ...]:
    """What the draft of a state comes to by every goal, and what is proven of it."""
    values = []
    for goal in REGISTER:
        module = _MODULES[goal.goal_id]
        value, bound = module.value(frame, state.draft), module.bound(state)
        proven = bound is not None and value - bound <= goal.precision * value
        values.append(GoalValue(goal.goal_id, value, bound, proven, goal.unit))
    return tuple(values)


__all__ = ["GOALS", "Goal", "SearchState", "SearchTools", "goal_values"]
