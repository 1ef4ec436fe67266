"""The search: from rows to the best plan and what is proven of it.

1. A plan by hand is the floor. 2. The relaxation's linear program bounds the peak; with the
peak held there, relax and fix lays the skeleton: rides with little load on every trip. 3. Each
trip is packed for itself. 4. Where a gap is left, trips are packed exactly, and then the carrier
model in one piece takes what time there is. 5. The goals after the peak follow, each without
giving up the ones before. 6. What time is left may raise the bound on the sum of the trips.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from solver.model.assignment.by_trip import Held, Rides, riding_by_trip, within_measure
from solver.model.assignment.load_fractions import trip_fractions
from solver.model.assignment.read_plan import Draft
from solver.model.construction.greedy import pack_by_hand, plan_by_hand
from solver.model.formulation.flow_balance import keeps_flows, rooms
from solver.model.formulation.frame import Frame
from solver.model.goals.later_goals import improve_later_goals
from solver.model.packing.swaps import lower_peak
from solver.model.packing.trip_load import TOO_MUCH, packed_trip
from solver.model.run import run_within
from solver.model.solvers.exact_trip import pack_exactly
from solver.model.solvers.relaxation import (
    Master,
    Skeleton,
    build_master,
    is_impossible,
    least_peak_bound,
    least_sum_bound,
    solve_master,
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

    `rides_by_hand` start the master; the bound of `fair` is on the sum of the trips' fractions
    of any plan whose peak is at most `fair_up_to`.
    """

    draft: Draft | None = None
    bound: int = 0
    infeasible: bool = False
    greedy_peak: int | None = None
    goals: tuple[GoalValue, ...] = ()
    rides_by_hand: Rides | None = None
    fair: Skeleton | None = None
    fair_up_to: int = 0


def search(frame: Frame, limits: Limits, watch: Watch, begin: Draft | None = None) -> Found:
    """Look for the plan with the least peak, then for the best of those by the later goals.

    A draft to begin from is kept until a better one is found.
    """
    found = Found(draft=begin)
    _by_hand(frame, found, limits, watch)
    master = build_master(
        frame,
        steady=limits.reproducible,
        seed=limits.seed,
        should_stop=watch.should_stop,
    )
    skeleton = _skeleton(master, found, limits, watch)
    if found.infeasible:
        return found
    if skeleton is not None:
        _offer(frame, found, _pack(frame, skeleton, found, limits, watch))
        watch.finish_stage("packing", peak_of(frame, found.draft), found.bound)
    _close_the_gap(frame, found, limits, watch)
    if found.draft is not None:
        found.draft, found.goals = improve_later_goals(
            master,
            found.draft,
            limits,
            watch,
            bound=found.bound,
            skeleton=_fair(master, found, watch),
        )
        _raise_fair_bound(master, found, limits, watch)
    return found


def peak_of(frame: Frame, draft: Draft | None) -> int | None:
    """The peak load fraction of a draft [1/10,000]; None without one."""
    return None if draft is None else max(trip_fractions(frame, draft), default=0)


def _fair(master: Master, found: Found, watch: Watch) -> Skeleton | None:
    """The skeleton with the least sum of fractions, its bound made good for the peak reached."""
    peak = peak_of(master.frame, found.draft)
    if found.fair is None or peak is None or peak <= found.fair_up_to:
        return found.fair
    bound = least_sum_bound(master, seconds=within_measure(watch, 0.2), peak_at_most=peak)
    return None if bound is None else replace(found.fair, bound=bound)


def _raise_fair_bound(master: Master, found: Found, limits: Limits, watch: Watch) -> None:
    """Search among all rides for a better bound on the sum, where that is small or time is left.

    A steady search does so for small problems only: its steps take too long for large ones.
    """
    peak, fair = peak_of(master.frame, found.draft), found.fair
    small = len(master.frame.may_carry) <= BREATH_LIMIT
    if peak is None or fair is None or not (small or (limits.gap == 0 and not watch.steady)):
        return
    seconds = 0.5 * watch.left() if limits.gap == 0 else within_measure(watch, 0.3)
    at = next(n for n, goal in enumerate(found.goals) if goal.goal_id == "fair_loads")
    goal = found.goals[at]
    if seconds <= 0 or goal.bound is None or goal.proven:
        return
    up_to = max(peak, found.fair_up_to)
    bound = least_sum_bound(master, seconds=seconds, peak_at_most=up_to, fully=True)
    before = fair.bound
    if bound is not None and bound > before:
        raised = min(goal.value, goal.bound + bound - before)
        goal = replace(goal, bound=raised, proven=raised >= goal.value)
        found.goals = (*found.goals[:at], goal, *found.goals[at + 1 :])


def _by_hand(frame: Frame, found: Found, limits: Limits, watch: Watch) -> None:
    """The floor, and the same rides packed with more care as a first answer."""
    found.rides_by_hand = plan_by_hand(frame)
    if found.rides_by_hand is not None and keeps_flows(frame, found.rides_by_hand):
        run = run_within(limits, min(2.0, 0.1 * watch.left()))
        draft, fits = pack_by_hand(frame, found.rides_by_hand, run)
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


def _skeleton(master: Master, found: Found, limits: Limits, watch: Watch) -> Skeleton | None:
    """A bound on the peak, then rides with little load on every trip and no higher peak."""
    if master.impossible is not None:
        found.infeasible = True
        return None
    bound = least_peak_bound(master, seconds=0.4 * watch.left())
    if bound is None:
        found.infeasible = found.draft is None
        return None
    found.bound = bound
    watch.finish_stage("relaxation", peak_of(master.frame, found.draft), found.bound)
    skeleton = _fair_skeleton(master, found, limits, watch, peak_at_most=bound)
    if skeleton is None and watch.left() > 0:
        skeleton = _whole_skeleton(master, found, limits, watch)
    watch.finish_stage("trip peaks", peak_of(master.frame, found.draft), found.bound)
    return skeleton


def _fair_skeleton(
    master: Master, found: Found, limits: Limits, watch: Watch, *, peak_at_most: int
) -> Skeleton | None:
    """Rides with little load on every trip under a peak; no higher than need be.

    What is left from there up to the gap is room for whole units.
    """
    if watch.left() <= 0 and found.draft is not None:
        return None
    found.fair_up_to = peak_at_most
    found.fair = solve_master(
        master,
        seconds=0.3 * watch.left(),
        gap=max(1e-4, 0.5 * limits.gap / FRACTION_GRID),
        sum_of_trips=True,
        peak_at_most=peak_at_most,
        start=found.rides_by_hand,
    )
    return found.fair


def _whole_skeleton(master: Master, found: Found, limits: Limits, watch: Watch) -> Skeleton | None:
    """Where whole units keep the peak above its bound: the least they need, then as before."""
    first = solve_master(
        master,
        seconds=0.3 * watch.left(),
        gap=max(1e-5, 0.1 * limits.gap / FRACTION_GRID),
        sum_of_trips=False,
        peak_at_most=FRACTION_GRID,
        start=found.rides_by_hand,
        fully=True,
    )
    if first is None:
        found.infeasible = found.draft is None and is_impossible(
            master, seconds=max(1.0, 0.3 * watch.left())
        )
        return None
    found.bound = max(found.bound, first.bound)
    peak = max(first.trip_fractions, default=0)
    return _fair_skeleton(master, found, limits, watch, peak_at_most=peak) or first


def _pack(
    frame: Frame, skeleton: Skeleton, found: Found, limits: Limits, watch: Watch
) -> Draft | None:
    """Pack every trip: longest first, then swaps, then exactly where it sticks out.

    Each trip aims at its own fraction of the skeleton; only one above the peak's bound is
    worth an exact packing here. None when that fails, or when time runs out and there is a
    plan already.
    """
    bound = found.bound
    carried: dict[tuple[int, int, str], int] = {}
    close = FRACTION_GRID + limits.gap
    room = rooms(frame, skeleton.rides)
    for trip, riding in enumerate(riding_by_trip(frame, skeleton.rides)):
        if watch.left() <= 0 and found.draft is not None:
            return None
        load = packed_trip(frame, trip, riding, room[trip])
        peak = lower_peak(load, target=skeleton.trip_fractions[trip] * close // FRACTION_GRID)
        held: Held = {(c, k): units for (c, _, k), units in load.carried(trip).items()}
        if peak > bound * close // FRACTION_GRID:
            answer = pack_exactly(
                frame,
                trip,
                riding,
                room[trip],
                run_within(limits, min(2.0, 0.1 * watch.left())),
                hint=held if peak < TOO_MUCH else None,
                at_least=min(bound, peak),
            )
            if answer.held is None and peak >= TOO_MUCH:
                return None
            held = answer.held or held
            if all((cargo, trip) in frame.settled for cargo in frame.riders[trip]):
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
