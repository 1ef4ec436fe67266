"""What comes of planning: a tagged answer, never a half-filled plan."""

from __future__ import annotations

from dataclasses import dataclass

from solver.plan import GoalValue, Plan, Remark
from solver.rulebook.goals import PEAK_LOAD


@dataclass(frozen=True, slots=True)
class Limits:
    """What a solve may use.

    A `reproducible` solve gives the same plan every time: one worker, and work counted in
    steps of the solvers instead of seconds, so it may take longer than `wall_seconds`.

    `gap` is the relative distance between peak and bound at which the search may stop,
    in 1/10,000. `tolerance` is how much more than its least fraction a trip may weigh so that
    units stay with their carriers, in 1/10,000 of that fraction; it never lifts the peak.
    `light_trip_share` is how full any trip may get for the same purpose [1/10,000 of the caps];
    it never lifts the peak either. Preferences and swaps come before the balance of such trips.
    """

    wall_seconds: float = 30.0
    workers: int = 2
    seed: int = 1
    gap: int = 0
    tolerance: int = 50
    light_trip_share: int = 9_000
    reproducible: bool = False


@dataclass(frozen=True, slots=True)
class SolveRecord:
    """How an answer was found, for honest reporting.

    `variables` and `constraints` count the integer model; `seconds` is wall time by stage.
    """

    solver: str
    variables: int
    constraints: int
    seconds: tuple[tuple[str, float], ...]


@dataclass(frozen=True, slots=True)
class Solved:
    """A checked plan, its goals in order, and the greedy plan's peak as the floor.

    `greedy_peak` is None when longest-first packing finds no whole plan [1/10,000]. `remarks`
    are the check's, on what does not forbid the plan.
    """

    plan: Plan
    goals: tuple[GoalValue, ...]
    greedy_peak: int | None
    record: SolveRecord
    remarks: tuple[Remark, ...] = ()

    @property
    def peak(self) -> GoalValue:
        """The goal that comes before all others: the largest load fraction of anybody."""
        return next(goal for goal in self.goals if goal.goal_id == PEAK_LOAD)


@dataclass(frozen=True, slots=True)
class Conflict:
    """One rule that takes part in making a problem infeasible, in trade words.

    `instead` are changes that would be allowed, where the rule knows any.
    """

    rule_id: str
    message: str
    instead: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Infeasible:
    """No plan can exist; confirmed a second time before it was said."""

    conflicts: tuple[Conflict, ...]
    record: SolveRecord


@dataclass(frozen=True, slots=True)
class NoPlanInTime:
    """Time ran out before a plan was found; `bound` is what is known of the peak."""

    bound: int | None
    record: SolveRecord


Outcome = Solved | Infeasible | NoPlanInTime
