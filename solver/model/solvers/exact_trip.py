"""One trip packed exactly with CP-SAT: its units shared out so that its fraction is least."""

from __future__ import annotations

from dataclasses import dataclass, replace

from solver.model.assignment.by_trip import join_one
from solver.model.assignment.draft import Held
from solver.model.assignment.load_fractions import trip_fractions
from solver.model.cp_sat import cp_model
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import Slack
from solver.model.rows import spread_weights
from solver.model.run import Run
from solver.model.solvers.highs_run import Effort
from solver.model.solvers.identical_carriers import pack_identical_carriers
from solver.quantities import FRACTION_GRID

STEADY_STEPS = (200_000, 20)
"""Iterations and nodes after which a steady packing as a flow ends [1]."""


@dataclass(frozen=True, slots=True)
class TripAnswer:
    """What came of packing one trip; `bound` is on its fraction."""

    held: Held | None
    bound: int
    infeasible: bool
    proven: bool


@dataclass(slots=True)
class TripModel:
    """The rows of one trip in CP-SAT: who holds how many of each cargo, and its fraction."""

    model: cp_model.CpModel
    held: dict[tuple[int, str], cp_model.IntVar]
    peak: cp_model.IntVar


def build_trip(
    frame: Frame, trip: int, riding: dict[int, int], slack: Slack, at_most: int
) -> TripModel:
    """Write the rows of a trip whose fraction is at most so much [1/10,000]."""
    model = cp_model.CpModel()
    built = TripModel(model, {}, model.new_int_var(0, at_most, "peak"))
    for cargo, units in riding.items():
        able = frame.may_carry[cargo, trip]
        parts = []
        for carrier in able:
            part = model.new_int_var(0, units, f"n{cargo}.{carrier.carrier_id}")
            built.held[cargo, carrier.carrier_id] = part
            parts.append(part)
            if pinned := frame.pinned(cargo, trip).get(carrier.carrier_id):
                model.add(part >= pinned)
        model.add(cp_model.LinearExpr.sum(parts) == units)
    for row in frame.load_rows[trip]:
        terms = [
            (built.held[cargo, carrier.carrier_id], frame.weight(cargo, trip, of_mass=row.of_mass))
            for cargo in riding
            for carrier in frame.may_carry[cargo, trip]
            if carrier.person_id == row.person_id
            and (row.in_sled if carrier.is_sled else row.in_pack)
        ]
        load = cp_model.LinearExpr.weighted_sum([v for v, _ in terms], [w for _, w in terms])
        if row.in_fraction:
            model.add(FRACTION_GRID * (load + row.fixed) <= row.cap * built.peak)
        else:
            model.add(load + row.fixed <= row.cap)
    for spread, most in zip(frame.spread_rows[trip], slack, strict=True):
        weights = spread_weights(spread)
        if sum(weights.get(cargo, 0) * units for cargo, units in riding.items()) <= most:
            continue
        for carrier in frame.carriers[trip]:
            mine = [c for c in weights if (c, carrier.carrier_id) in built.held]
            taken = cp_model.LinearExpr.weighted_sum(
                [built.held[cargo, carrier.carrier_id] for cargo in mine],
                [weights[cargo] for cargo in mine],
            )
            model.add(taken <= most)
    return built


def pack_exactly(
    frame: Frame,
    trip: int,
    riding: dict[int, int],
    slack: Slack,
    run: Run,
    *,
    hint: Held | None = None,
    at_least: int = 0,
    enough: int | None = None,
) -> TripAnswer:
    """Share out a trip's units so that its largest load fraction is least.

    With `enough`, any sharing out under that fraction will do. `hint` must keep every limit;
    the answer is never worse than it.
    """
    at_most = FRACTION_GRID if enough is None else enough
    # Without any packing so far, one of this kind is worth more time: nothing else will find it.
    effort = _effort(run, run.seconds if hint is not None else 8 * run.seconds)
    alike = pack_identical_carriers(
        frame, trip, riding, slack, at_least=at_least, at_most=at_most, effort=effort
    )
    if alike is not None:
        held, at_least = alike
        packed = trip_fractions(frame, join_one(trip, held))[trip]
        if packed <= at_least or enough is not None:
            proven = packed <= at_least
            return TripAnswer(held, at_least, infeasible=False, proven=proven)
        if hint is None or packed < trip_fractions(frame, join_one(trip, hint))[trip]:
            hint = held
    built = build_trip(frame, trip, riding, slack, at_most)
    built.model.add(built.peak >= at_least)
    if enough is None:
        built.model.minimize(built.peak)
    if hint is None:
        return _solve(built, run, at_least)
    hinted = trip_fractions(frame, join_one(trip, hint))[trip]
    _add_hint(built, hint, hinted)
    answer = _solve(built, run, at_least)
    if answer.infeasible:
        return answer
    if answer.held is None or trip_fractions(frame, join_one(trip, answer.held))[trip] > hinted:
        return replace(answer, held=hint)
    return answer


def _effort(run: Run, seconds: float) -> Effort:
    """The same for HiGHS."""
    steps = STEADY_STEPS if run.steady else None
    return Effort(seconds, steps=steps, seed=run.seed, should_stop=run.should_stop)


def _add_hint(built: TripModel, hint: Held, fraction: int) -> None:
    for key, part in built.held.items():
        built.model.add_hint(part, hint.get(key, 0))
    built.model.add_hint(built.peak, fraction)


def _solve(built: TripModel, run: Run, at_least: int) -> TripAnswer:
    solver = run.solver()
    status = solver.solve(built.model)
    if status == cp_model.INFEASIBLE:
        return TripAnswer(None, 0, infeasible=True, proven=True)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return TripAnswer(None, at_least, infeasible=False, proven=False)
    return TripAnswer(
        held={key: units for key, part in built.held.items() if (units := solver.value(part))},
        bound=max(at_least, round(solver.best_objective_bound)),
        infeasible=False,
        proven=status == cp_model.OPTIMAL,
    )
