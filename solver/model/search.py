"""The search: from rows to the best plan and what is proven of it.

1. A plan by hand is the floor. 2. The relaxation bounds the peak, then lays the relaxed: the
rides with the least load fraction on every trip. 3. Each trip is packed for itself. 4. Where
a gap is left, trips are packed exactly, and then the carrier model in one piece takes what
time there is. 5. The goals after the peak follow, each without giving up the ones before.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from solver.model.assignment.by_trip import Held, Rides, riding_by_trip, within_measure
from solver.model.assignment.draft import Draft
from solver.model.assignment.load_fractions import trip_fractions
from solver.model.construction.greedy_rides import greedy_rides
from solver.model.construction.pack_greedily import pack_greedily
from solver.model.formulation.flow_rows import keeps_flow_rows
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import spread_slack
from solver.model.goals.later_goals import improve_later_goals
from solver.model.packing.longest_first import packed_trip
from solver.model.packing.swaps import lower_peak
from solver.model.packing.trip_load import TOO_MUCH
from solver.model.run import run_within
from solver.model.solvers.exact_trip import pack_exactly
from solver.model.solvers.relaxation import (
    Relaxation,
    RelaxedPlan,
    build_relaxation,
    is_impossible,
    least_sum_bound,
    solve_relaxation,
)
from solver.model.solvers.solve_one_piece import least_peak
from solver.outcome import Limits
from solver.plan import GoalValue
from solver.progress import Watch
from solver.quantities import FRACTION_GRID

ONE_PIECE_LIMIT = 60_000
"""Open (cargo, trip) pairs beyond which the one-piece model would not help within minutes."""


BREATH_SECONDS, BREATH_LIMIT = 0.5, 2_500
"""Time that is spent on a proof where the gap is small already, and up to how many pairs [s]."""


@dataclass(slots=True)
class Found:
    """What the search ended with; `draft` None and `infeasible` says that none can exist.

    `rides_by_hand` start the relaxation; the bound of `fair` is on the sum of the trips' fractions
    of any plan whose peak is at most `fair_up_to`.
    """

    draft: Draft | None = None
    bound: int = 0
    infeasible: bool = False
    greedy_peak: int | None = None
    goals: tuple[GoalValue, ...] = ()
    rides_by_hand: Rides | None = None
    fair: RelaxedPlan | None = None
    fair_up_to: int = 0


def search(frame: Frame, limits: Limits, watch: Watch, begin: Draft | None = None) -> Found:
    """Look for the plan with the least peak, then for the best of those by the later goals.

    A draft to begin from is kept until a better one is found.
    """
    found = Found(draft=begin)
    _by_hand(frame, found, limits, watch)
    relaxation = build_relaxation(frame, steady=limits.reproducible)
    relaxed = _relaxed(relaxation, found, limits, watch)
    if found.infeasible:
        return found
    if relaxed is not None:
        _offer(frame, found, _pack(frame, relaxed, found, limits, watch))
        watch.finish_stage("packing", peak_of(frame, found.draft), found.bound)
    _close_the_gap(frame, found, limits, watch)
    if found.draft is not None:
        found.draft, found.goals = improve_later_goals(
            relaxation,
            found.draft,
            limits,
            watch,
            bound=found.bound,
            relaxed=_fair(relaxation, found, watch),
        )
    return found


def peak_of(frame: Frame, draft: Draft | None) -> int | None:
    """The peak load fraction of a draft [1/10,000]; None without one."""
    return None if draft is None else max(trip_fractions(frame, draft), default=0)


def _fair(relaxation: Relaxation, found: Found, watch: Watch) -> RelaxedPlan | None:
    """The relaxed with the least sum of fractions, its bound made good for the peak reached."""
    peak = peak_of(relaxation.frame, found.draft)
    if found.fair is None or peak is None or peak <= found.fair_up_to:
        return found.fair
    bound = least_sum_bound(relaxation, seconds=within_measure(watch, 0.2), peak_at_most=peak)
    return None if bound is None else replace(found.fair, bound=bound)


def _by_hand(frame: Frame, found: Found, limits: Limits, watch: Watch) -> None:
    """The floor, and the same rides packed with more care as a first answer."""
    found.rides_by_hand = greedy_rides(frame)
    if found.rides_by_hand is not None and keeps_flow_rows(frame, found.rides_by_hand):
        run = run_within(limits, min(2.0, 0.1 * watch.left()))
        draft, fits = pack_greedily(frame, found.rides_by_hand, run)
        if fits:
            _offer(frame, found, draft)
            found.greedy_peak = peak_of(frame, draft)
    watch.finish_stage("by hand", peak_of(frame, found.draft), 0)
    # Telling and checking a plan takes about as long as making one by hand.
    watch.keep_back(watch.elapsed())


def _offer(frame: Frame, found: Found, draft: Draft | None) -> None:
    """Keep a draft if its peak is lower than the best so far, or the same and its sum less."""
    if draft is None:
        return
    fractions = trip_fractions(frame, draft)
    if found.draft is not None:
        best = trip_fractions(frame, found.draft)
        if (max(best, default=0), sum(best)) <= (max(fractions, default=0), sum(fractions)):
            return
    found.draft = draft


def _relaxed(
    relaxation: Relaxation, found: Found, limits: Limits, watch: Watch
) -> RelaxedPlan | None:
    """The relaxation's least peak as a bound, then rides with the least fraction on every trip."""
    if relaxation.impossible is not None:
        found.infeasible = True
        return None
    first = solve_relaxation(
        relaxation,
        seconds=0.4 * watch.left(),
        gap=max(1e-5, 0.1 * limits.gap / FRACTION_GRID),
        sum_of_trips=False,
        peak_at_most=FRACTION_GRID,
        start=found.rides_by_hand,
    )
    if first is None:
        found.infeasible = found.draft is None and is_impossible(
            relaxation, seconds=max(1.0, 0.3 * watch.left())
        )
        watch.finish_stage("relaxation", peak_of(relaxation.frame, found.draft), 0)
        return None
    found.bound = first.bound
    watch.finish_stage("relaxation", peak_of(relaxation.frame, found.draft), found.bound)
    # No higher than need be: what is left up to the gap is left for whole units.
    found.fair_up_to = max(first.trip_fractions, default=0)
    second = solve_relaxation(
        relaxation,
        seconds=0.3 * watch.left(),
        gap=max(1e-4, 0.5 * limits.gap / FRACTION_GRID),
        sum_of_trips=True,
        peak_at_most=found.fair_up_to,
        start=first.rides,
    )
    found.fair = second
    watch.finish_stage("trip peaks", peak_of(relaxation.frame, found.draft), found.bound)
    return second or first


def _pack(
    frame: Frame, relaxed: RelaxedPlan, found: Found, limits: Limits, watch: Watch
) -> Draft | None:
    """Pack every trip: longest first, then swaps, then exactly where it sticks out.

    Each trip aims at its own fraction of the relaxed; only one above the peak's bound is
    worth an exact packing here. None when that fails, or when time runs out and there is a
    plan already.
    """
    bound = found.bound
    carried: dict[tuple[int, int, str], int] = {}
    close = FRACTION_GRID + limits.gap
    slack = spread_slack(frame, relaxed.rides)
    for trip, riding in enumerate(riding_by_trip(frame, relaxed.rides)):
        if watch.left() <= 0 and found.draft is not None:
            return None
        load = packed_trip(frame, trip, riding, slack[trip])
        peak = lower_peak(load, target=relaxed.trip_fractions[trip] * close // FRACTION_GRID)
        held: Held = {(c, k): units for (c, _, k), units in load.carried(trip).items()}
        if peak > bound * close // FRACTION_GRID:
            answer = pack_exactly(
                frame,
                trip,
                riding,
                slack[trip],
                run_within(limits, min(2.0, 0.1 * watch.left())),
                hint=held if peak < TOO_MUCH else None,
                at_least=min(bound, peak),
            )
            if answer.held is None and peak >= TOO_MUCH:
                return None
            held = answer.held or held
            if all((cargo, trip) in frame.settled for cargo in frame.allowed_cargo[trip]):
                # Whole units without a choice of trip: the trip's bound is one on the peak.
                found.bound = max(found.bound, answer.bound)
        carried |= {(cargo, trip, carrier): units for (cargo, carrier), units in held.items()}
    return Draft(carried)


def _close_the_gap(frame: Frame, found: Found, limits: Limits, watch: Watch) -> None:
    """Prove the peak or lower it with the one-piece model, and confirm that there is no plan."""
    peak = peak_of(frame, found.draft)
    seconds = 0.6 * watch.left()
    if peak is not None and (peak - found.bound) * FRACTION_GRID <= limits.gap * peak:
        # Near enough, but a small model may yet be proven in the time of a breath.
        seconds = min(seconds, BREATH_SECONDS if len(frame.may_carry) <= BREATH_LIMIT else 0.0)
    if peak == found.bound or len(frame.may_carry) > ONE_PIECE_LIMIT or seconds <= 0:
        return
    answer = least_peak(
        frame,
        run_within(limits, seconds),
        hint=found.draft,
        at_least=found.bound,
    )
    if answer.infeasible and found.draft is None:
        again = least_peak(
            frame,
            replace(
                run_within(limits, watch.left()), workers=1, seed=limits.seed + 1, presolve=False
            ),
        )
        found.infeasible = again.infeasible
        watch.finish_stage("confirm", None, 0)
        return
    _offer(frame, found, answer.draft)
    found.bound = max(found.bound, answer.bound)
    watch.finish_stage("one piece", peak_of(frame, found.draft), found.bound)
