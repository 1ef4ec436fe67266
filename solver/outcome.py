"""What comes of planning: a tagged answer, never a half-filled plan."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from solver.diagnosis import Diagnosis
from solver.plan import GoalValue, Plan, Remark
from solver.rulebook.goals import PEAK_LOAD
from solver.rulebook.kinds import DECISION


@dataclass(frozen=True, slots=True)
class Limits:
    """What a solve may use.

    A solve gives the same plan every time: work is counted in steps that fit `wall_seconds`, one
    thread a question, and the clock only is the last stop. Where it is `racing`, so many `workers`
    race for an answer and the clock decides when each stage ends.

    `gap` is the relative distance between peak and bound at which the search may stop,
    in 1/10,000. `tolerance` is how much more than its least fraction a trip that is not hard may
    weigh so that units stay with their carriers, and `hard_tolerance` how much more a hard one may,
    in 1/10,000 of that fraction; neither lifts the peak. A hard trip may rise by the gap, too.
    `light_trip_share` is how full any trip may get for the same purpose [1/10,000 of the caps];
    it never lifts the peak either. Preferences and swaps come before the balance of such trips.
    `near_tolerance` is how much higher the peak may be so that a plan stays near a former one, in
    1/10,000 of the peak, and it may always rise to `near_peak`: what people know already.
    """

    wall_seconds: float = 30.0
    workers: int = 2
    seed: int = 1
    gap: int = 0
    tolerance: int = 50
    hard_tolerance: int = 0
    light_trip_share: int = 9_000
    near_tolerance: int = 50
    near_peak: int = 0
    racing: bool = False


@dataclass(frozen=True, slots=True)
class SolveRecord:
    """How an answer was found, for honest reporting.

    `variables` and `constraints` count the integer model; `seconds` is wall time by stage.
    `repeatable` says that no clock decided anything: the same problem gives the same answer.
    """

    solver: str
    variables: int
    constraints: int
    seconds: tuple[tuple[str, float], ...]
    repeatable: bool = True


@dataclass(frozen=True, slots=True)
class Solved:
    """A checked plan, its goals in order, and the greedy plan's peak as the floor.

    `greedy_peak` is None when longest-first packing finds no whole plan [1/10,000]; then
    `greedy_reason` says on which day and why, if that is known. `remarks` are the check's, on what
    does not forbid the plan.
    """

    plan: Plan
    goals: tuple[GoalValue, ...]
    greedy_peak: int | None
    record: SolveRecord
    remarks: tuple[Remark, ...] = ()
    greedy_reason: str = ""

    @property
    def peak(self) -> GoalValue:
        """The goal that comes before all others: the largest load fraction of anybody."""
        return next(goal for goal in self.goals if goal.goal_id == PEAK_LOAD)


class RemedyKind(StrEnum):
    """What a remedy changes: a cap, what is taken, who carries it, a reserve, something else."""

    RAISE = "raise"
    LEAVE_OUT = "leave_out"
    SHARE = "share"
    RESERVE = "reserve"
    OTHER = "other"


@dataclass(frozen=True, slots=True)
class Remedy:
    """A change that would be allowed: by how much in `unit`, where that is known.

    A change to a reserve is the leader's decision (`is_decision`) and comes last.
    """

    kind: RemedyKind
    text: str
    amount: int | None = None
    unit: str = ""

    @property
    def is_decision(self) -> bool:
        """Whether the leader has to decide it, rather than the planner."""
        return self.kind is RemedyKind.RESERVE


def remedies_of(texts: tuple[str, ...]) -> tuple[Remedy, ...]:
    """Changes known by their words only; those that are marked as a decision come last."""
    found = [
        Remedy(RemedyKind.RESERVE, text.removeprefix(DECISION).strip())
        if text.startswith(DECISION)
        else Remedy(RemedyKind.OTHER, text)
        for text in texts
    ]
    return tuple(sorted(found, key=lambda remedy: remedy.is_decision))


@dataclass(frozen=True, slots=True)
class Occurrence:
    """One more place or time at which a conflict's cause shows."""

    rule_id: str
    message: str
    amount: int | None = None
    unit: str = ""
    where: tuple[tuple[str, str | int], ...] = ()


@dataclass(frozen=True, slots=True)
class Conflict:
    """One cause that makes a problem infeasible, in trade words.

    `amount` is what is missing at the worst place, in `unit`; `where` names day, step, person,
    place or cook group as (name, value) pairs, as a finding's does. `more` are other places and
    times with the same cause. `remedies` are changes that would be allowed, as far as any are
    known.
    """

    rule_id: str
    message: str
    remedies: tuple[Remedy, ...] = ()
    amount: int | None = None
    unit: str = ""
    where: tuple[tuple[str, str | int], ...] = ()
    more: tuple[Occurrence, ...] = ()


@dataclass(frozen=True, slots=True)
class Infeasible:
    """No plan can exist; confirmed a second time before it was said.

    `diagnosis` says more of it, None where nobody asked.
    """

    conflicts: tuple[Conflict, ...]
    record: SolveRecord
    diagnosis: Diagnosis | None = None


@dataclass(frozen=True, slots=True)
class NoPlanInTime:
    """Time ran out before a plan was found; `bound` is what is known of the peak."""

    bound: int | None
    record: SolveRecord


Outcome = Solved | Infeasible | NoPlanInTime
