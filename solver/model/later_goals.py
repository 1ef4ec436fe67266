"""The goals after the peak: everybody's loads trip by trip, mass × height, hand-overs.

Each keeps what the goals before reached, the last within the tolerance that the limits name.
"""

from __future__ import annotations

from solver.model.exact_trip import Held, fewest_hand_overs, pack_exactly
from solver.model.frame import Frame
from solver.model.loads import hand_overs, mass_height, trip_fractions
from solver.model.master import Master, solve_master
from solver.model.packing import TOO_MUCH, empty_trip, longest_first
from solver.model.read_plan import Draft
from solver.model.solve_one_piece import Run
from solver.model.swaps import lower_peak
from solver.outcome import Limits
from solver.plan import GoalValue
from solver.progress import Watch
from solver.quantities import FRACTION_GRID


def improve_later_goals(
    frame: Frame, master: Master, draft: Draft, bound: int, limits: Limits, watch: Watch
) -> tuple[Draft, tuple[GoalValue, ...]]:
    """The draft after the later goals, and all four goal values in order."""
    peak = max(trip_fractions(frame, draft), default=0)
    draft, sum_bound = _fair_loads(frame, master, draft, peak, limits, watch)
    watch.finish_stage("fair loads", peak, bound)
    fair = sum(trip_fractions(frame, draft))
    draft = _fewer_hand_overs(frame, draft, peak, limits, watch)
    watch.finish_stage("hand-overs", peak, bound)
    final = sum(trip_fractions(frame, draft))
    return draft, (
        GoalValue("peak_load", peak, bound, peak <= bound, "1/10000 of the cap"),
        GoalValue(
            "fair_loads",
            final,
            sum_bound,
            sum_bound is not None and fair <= sum_bound,
            "1/10000 of the cap, summed over trips",
        ),
        GoalValue("mass_height", mass_height(frame, draft), None, False, "g m"),
        GoalValue(
            "hand_overs", hand_overs(frame, draft), 0, hand_overs(frame, draft) == 0, "units"
        ),
    )


def _by_trip(frame: Frame, draft: Draft) -> list[Held]:
    held: list[Held] = [{} for _ in frame.world.timeline.trips]
    for (cargo, trip, carrier), units in draft.carried.items():
        held[trip][cargo, carrier] = units
    return held


def _join(by_trip: list[Held]) -> Draft:
    return Draft(
        {
            (cargo, trip, carrier): units
            for trip, held in enumerate(by_trip)
            for (cargo, carrier), units in held.items()
        }
    )


def _riding(held: Held) -> dict[int, int]:
    riding: dict[int, int] = {}
    for (cargo, _), units in sorted(held.items()):
        riding[cargo] = riding.get(cargo, 0) + units
    return riding


def _fair_loads(
    frame: Frame, master: Master, draft: Draft, peak: int, limits: Limits, watch: Watch
) -> tuple[Draft, int | None]:
    """Lower each trip's own peak; the rides may change where a better skeleton packs well."""
    skeleton = solve_master(
        master,
        seconds=0.3 * watch.left(),
        gap=1e-4,
        sum_of_trips=True,
        peak_at_most=peak,
    )
    best = _lower_trips(frame, draft, None, limits, watch) or draft
    if skeleton is None:
        return best, None
    rides = Draft({(c, t, ""): units for (c, t), units in skeleton.rides.items()})
    other = _lower_trips(frame, rides, skeleton.trip_fractions, limits, watch)
    if other is None:
        return best, skeleton.bound
    fractions = trip_fractions(frame, other)
    if max(fractions, default=0) <= peak and sum(fractions) < sum(trip_fractions(frame, best)):
        best = other
    return best, skeleton.bound


def _lower_trips(
    frame: Frame, draft: Draft, targets: tuple[int, ...] | None, limits: Limits, watch: Watch
) -> Draft | None:
    """Each trip of a draft packed for itself; None where its rides cannot be packed at all.

    The draft need not say who carries what: then its carriers are the empty string.
    """
    by_trip = _by_trip(frame, draft)
    before = trip_fractions(frame, draft)
    for trip, held in enumerate(by_trip):
        riding = _riding(held)
        load = empty_trip(frame, trip, riding)
        longest_first(load)
        target = targets[trip] if targets else 0
        reached = lower_peak(load, target=target)
        packed = {(c, k): units for (c, _, k), units in load.carried(trip).items()}
        told = all(carrier for _, carrier in held)
        if reached < TOO_MUCH and (not told or reached < before[trip]):
            by_trip[trip], told = packed, True
        if reached > target and watch.left() > 0:
            answer = pack_exactly(
                frame,
                trip,
                riding,
                Run(min(0.2, 0.05 * watch.left()), limits.workers, limits.seed),
                hint=by_trip[trip] if told else None,
                at_least=target,
            )
            if answer.held is not None:
                by_trip[trip], told = answer.held, True
        if not told:
            return None
    return _join(by_trip)


def _fewer_hand_overs(frame: Frame, draft: Draft, peak: int, limits: Limits, watch: Watch) -> Draft:
    """Trip by trip, leave units with whom they were, within the tolerance of each trip."""
    by_trip = _by_trip(frame, draft)
    fractions = trip_fractions(frame, draft)
    before: dict[str, dict[str, int]] = {}
    for trip, held in enumerate(by_trip):
        if watch.left() > 0 and held:
            at_most = min(
                peak, fractions[trip] * (FRACTION_GRID + limits.tolerance) // FRACTION_GRID
            )
            answer = fewest_hand_overs(
                frame,
                trip,
                _riding(held),
                Run(min(0.3, 0.1 * watch.left()), limits.workers, limits.seed),
                hint=held,
                at_most=max(at_most, fractions[trip]),
                before=before,
            )
            by_trip[trip] = answer.held or held
        person_of = {c.carrier_id: c.person_id for c in frame.carriers[trip]}
        now: dict[str, dict[str, int]] = {}
        for (cargo, carrier), units in by_trip[trip].items():
            whose = now.setdefault(frame.world.cargo[cargo].unit_id, {})
            whose[person_of[carrier]] = whose.get(person_of[carrier], 0) + units
        before |= now
    better = _join(by_trip)
    return better if hand_overs(frame, better) <= hand_overs(frame, draft) else draft
