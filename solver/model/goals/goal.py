"""What a goal is to the search: a module with `value`, `bound` and `improve`."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Protocol

from solver.model.assignment.draft import Draft
from solver.model.formulation.frame import Frame
from solver.model.goals.near_draft import NearDraft
from solver.model.solvers.relaxation import Relaxation
from solver.model.solvers.relaxed_plans import RelaxedPlans
from solver.outcome import Limits
from solver.progress import Watch


@dataclass(frozen=True, slots=True)
class SearchState:
    """Where the search stands: the best draft, and the lower bounds known by goal.

    `trip_limits` is how full each trip may get in the goals to come [1/10,000]; it is empty until
    a goal sets it.
    """

    draft: Draft
    bounds: Mapping[str, int]
    trip_limits: tuple[int, ...] = ()

    def with_bound(self, goal_id: str, bound: int | None) -> SearchState:
        """The state with one more bound; the same state where none was found."""
        if bound is None:
            return self
        return replace(self, bounds={**self.bounds, goal_id: bound})


@dataclass(frozen=True, slots=True)
class SearchTools:
    """What every goal may use: the relaxation with its plans, the limits and the watch.

    `first` is the plan that the search began with where it stays near to a former one.
    """

    relaxation: Relaxation
    relaxed: RelaxedPlans
    limits: Limits
    watch: Watch
    first: NearDraft | None = None

    @property
    def frame(self) -> Frame:
        """The frame that is searched."""
        return self.relaxation.frame


class Goal(Protocol):
    """A module of this room that the register in `__init__` names."""

    def value(self, frame: Frame, draft: Draft) -> int:
        """What a draft comes to, in the goal's unit; less is better."""

    def bound(self, state: SearchState) -> int | None:
        """A value that no plan can be below; None where none is known."""

    def improve(self, state: SearchState, tools: SearchTools) -> SearchState:
        """A state whose draft is no worse by this goal or by any goal before it."""
