"""Whether a frame has any plan at all: the first one that is found, or a proof that there is none.

Nothing is made better here, so this takes a small part of the time of a search.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from solver.model.assignment.draft import Draft
from solver.model.construction.greedy_plan import greedy_plan
from solver.model.construction.pack_relaxed import pack_relaxed
from solver.model.formulation.frame import Frame
from solver.model.solvers.relaxation_rows import build_relaxation
from solver.model.solvers.relaxed_plans import relaxed_plans
from solver.model.solvers.solve_one_piece import first_draft
from solver.outcome import Limits
from solver.progress import Watch
from solver.quantities import FRACTION_GRID


@dataclass(frozen=True, slots=True)
class AnyPlan:
    """A draft, or that there is no plan; neither where time ran out."""

    draft: Draft | None = None
    infeasible: bool = False


def any_plan(frame: Frame, limits: Limits, watch: Watch) -> AnyPlan:
    """The first plan found: by the greedy way, then from the relaxation, then in one piece."""
    greedy = greedy_plan(frame, limits, watch)
    if greedy.draft is not None:
        return AnyPlan(greedy.draft)
    relaxation = build_relaxation(
        frame, steady=not limits.racing, seed=limits.seed, should_stop=watch.should_stop
    )
    easy = replace(limits, gap=FRACTION_GRID)
    relaxed = relaxed_plans(relaxation, easy, watch, start=greedy.rides, peak=None)
    if relaxed.infeasible:
        return AnyPlan(infeasible=True)
    packed = pack_relaxed(frame, relaxed, easy, watch, has_draft=False)
    if packed.draft is not None:
        return AnyPlan(packed.draft)
    answer = first_draft(frame, easy, watch, at_least=0)
    return AnyPlan(answer.draft, answer.infeasible)
