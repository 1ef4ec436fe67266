"""Solving the carrier model in one piece with CP-SAT, a goal at a time."""

from __future__ import annotations

from dataclasses import dataclass, replace

from solver.model.assignment.draft import Draft
from solver.model.assignment.load_fractions import peak_of, trip_fractions
from solver.model.cp_sat import cp_model
from solver.model.formulation.frame import Frame
from solver.model.run import Run, run_within
from solver.model.solvers.one_piece import OnePiece, build_one_piece
from solver.outcome import Limits
from solver.progress import Watch

ONE_PIECE_LIMIT = 60_000
"""(cargo, trip) pairs beyond which the model in one piece would not help within minutes."""


@dataclass(frozen=True, slots=True)
class OnePieceAnswer:
    """What came of one run: `bound` holds whatever `draft` is; None of both when stopped early."""

    draft: Draft | None
    bound: int
    infeasible: bool
    proven: bool


class _FirstPlan(cp_model.CpSolverSolutionCallback):
    """Says to a watch as soon as a run has a plan; from then on it hears a wish to finish."""

    def __init__(self, watch: Watch) -> None:
        super().__init__()
        self._watch = watch

    def on_solution_callback(self) -> None:
        """There is a plan, which the run goes on to make better."""
        self._watch.can_answer = True


def least_peak(
    frame: Frame,
    run: Run,
    *,
    hint: Draft | None = None,
    at_least: int = 0,
    watch: Watch | None = None,
) -> OnePieceAnswer:
    """The plan with the least peak load fraction, from the carrier model in one piece.

    `hint` must be a whole plan; `at_least` a bound that is known to hold. The `watch` hears of the
    first plan.
    """
    piece = build_one_piece(frame)
    if piece.impossible is not None:
        return OnePieceAnswer(None, 0, infeasible=True, proven=True)
    piece.model.add(piece.peak >= at_least)
    piece.model.minimize(piece.peak)
    if hint is not None:
        add_hint(frame, piece, hint)
    solver = run.solver()
    status = solver.solve(piece.model, None if watch is None else _FirstPlan(watch))
    if status == cp_model.INFEASIBLE:
        return OnePieceAnswer(None, 0, infeasible=True, proven=True)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return OnePieceAnswer(None, at_least, infeasible=False, proven=False)
    return OnePieceAnswer(
        draft=read_draft(piece, solver),
        bound=max(at_least, round(solver.best_objective_bound)),
        infeasible=False,
        proven=status == cp_model.OPTIMAL,
    )


def has_no_plan(frame: Frame, run: Run) -> bool:
    """Whether the model in one piece has no solution; False where that could not be shown."""
    piece = build_one_piece(frame)
    return piece.impossible is not None or run.solver().solve(piece.model) == cp_model.INFEASIBLE


def is_small_enough(frame: Frame) -> bool:
    """Whether the model in one piece is worth its time."""
    return len(frame.may_carry) <= ONE_PIECE_LIMIT


def first_draft(frame: Frame, limits: Limits, watch: Watch, *, at_least: int) -> OnePieceAnswer:
    """A plan where nothing else has found one, or that there is none, said by two runs."""
    nothing = OnePieceAnswer(None, at_least, infeasible=False, proven=False)
    seconds = 0.6 * watch.left()
    if not is_small_enough(frame) or seconds <= 0:
        return nothing
    run = run_within(limits, seconds, watch)
    answer = least_peak(frame, run, at_least=at_least, watch=watch)
    if not answer.infeasible:
        watch.finish_stage("one piece", _peak(frame, answer.draft), max(at_least, answer.bound))
        return answer
    other = replace(run_within(limits, watch.left(), watch), workers=1, seed=limits.seed + 1)
    again = least_peak(frame, replace(other, presolve=False))
    watch.finish_stage("confirm", None, 0)
    return replace(nothing, infeasible=again.infeasible)


def _peak(frame: Frame, draft: Draft | None) -> int | None:
    return None if draft is None else peak_of(frame, draft)


def add_hint(frame: Frame, piece: OnePiece, hint: Draft) -> None:
    """Hint every variable of the model, the totals included: half a hint is worth little."""
    rides = hint.rides()
    for key, ride in piece.rides.items():
        if isinstance(ride, cp_model.IntVar):
            piece.model.add_hint(ride, rides.get(key, 0))
    seen = {ride.index for ride in piece.rides.values() if isinstance(ride, cp_model.IntVar)}
    for triple, part in piece.carried.items():
        if isinstance(part, cp_model.IntVar) and part.index not in seen:
            piece.model.add_hint(part, hint.carried.get(triple, 0))
    fractions = trip_fractions(frame, hint)
    for peak, fraction in zip(piece.trip_peak, fractions, strict=True):
        piece.model.add_hint(peak, fraction)
    piece.model.add_hint(piece.peak, max(fractions, default=0))


def read_draft(piece: OnePiece, solver: cp_model.CpSolver) -> Draft:
    """The whole assignment that a solver ended with."""
    carried = {}
    for key, part in piece.carried.items():
        units = part if isinstance(part, int) else solver.value(part)
        if units:
            carried[key] = units
    return Draft(carried)
