"""The search for who and what is on which flight, so that no aircraft is nearly too heavy.

Units at the start place before day 1 and at the end are the same in every plan on the ground,
so flights are settled for themselves, one direction after the other: first the largest share
of a payload is made least, then units of a kind are kept together as far as that allows.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from solver.model.cp_sat import cp_model
from solver.model.flights import rules
from solver.model.flights.cabin import Cabin, build_cabin
from solver.model.flights.conflicts import describe_conflicts
from solver.model.flights.freight import Freight, read_freight
from solver.model.instance.world import World
from solver.model.run import Run, run_within
from solver.outcome import Conflict, Limits
from solver.plan import FlightLoad, Stowed
from solver.problem import FlightDirection
from solver.progress import Watch
from solver.quantities import FRACTION_GRID

_SECONDS, _SHARE = 5.0, 0.1
"""Time for one direction's least share at most, and at most which part of what is left [s]."""

_NEAR = 100
"""How near to the least a share must come where the search may stop at a gap [1/10,000]."""

_TIDY_SECONDS = 0.3
"""Time for keeping units of a kind together [s]."""

_EXPLAIN_SECONDS = 2.0
"""Time for trying whether there is an assignment without one rule [s]."""


@dataclass(frozen=True, slots=True)
class FlightAnswer:
    """What came of it: loads in the order of the flights, or why there are none.

    Without either, time ran out. `fractions` are the largest share of a payload by direction,
    and whether none can be less [1/10,000].
    """

    loads: tuple[FlightLoad, ...] = ()
    conflicts: tuple[Conflict, ...] = ()
    in_time: bool = True
    fractions: tuple[tuple[FlightDirection, int, bool], ...] = ()


@dataclass(frozen=True, slots=True)
class _Answer:
    loads: tuple[FlightLoad, ...] | None
    fraction: int
    is_least: bool
    infeasible: bool


def solve_flights(world: World, limits: Limits, watch: Watch) -> FlightAnswer:
    """Settle the flights of every direction that has any."""
    if not world.problem.flights:
        return FlightAnswer()
    loads: dict[str, FlightLoad] = {}
    fractions = []
    for direction in FlightDirection:
        freight = read_freight(world, direction)
        if not freight.flights:
            continue
        seconds = max(0.5, min(_SECONDS, _SHARE * watch.left()))
        run = run_within(replace(limits, workers=1), seconds, watch if watch.steady else None)
        answer = _settle(freight, run, limits.gap)
        if answer.infeasible:
            # Said only where another run, set differently, comes to the same.
            again = replace(run, seed=run.seed + 1, presolve=not run.presolve)
            if not _is_infeasible(freight, _asked(freight), again):
                return FlightAnswer(in_time=False)
            watch.finish_stage("flights", None, 0)
            return FlightAnswer(conflicts=describe_conflicts(freight, _clash(freight, run)))
        if answer.loads is None:
            return FlightAnswer(in_time=False)
        loads |= {load.flight_id: load for load in answer.loads}
        fractions.append((direction, answer.fraction, answer.is_least))
    watch.finish_stage("flights", None, 0)
    in_order = tuple(
        loads[flight.flight_id] for flight in world.problem.flights if flight.flight_id in loads
    )
    return FlightAnswer(in_order, fractions=tuple(fractions))


def _asked(freight: Freight) -> tuple[str, ...]:
    """The rules that the flights of a request must keep."""
    return tuple(
        rule_id for rule_id, _ in rules.FLIGHT_BUILDERS if freight.problem.must_keep(rule_id)
    )


def _build(freight: Freight, rule_ids: tuple[str, ...]) -> Cabin:
    cabin = build_cabin(freight)
    for rule_id, build in rules.FLIGHT_BUILDERS:
        if rule_id in rule_ids:
            build(cabin)
    return cabin


def _settle(freight: Freight, run: Run, gap: int) -> _Answer:
    """The least largest share of a payload, then the fewest parts of classes of units.

    The first search may stop at a `gap` of so many 1/10,000 of the share.
    """
    cabin = _build(freight, _asked(freight))
    cabin.model.minimize(cabin.fraction)
    solver = run.solver()
    solver.parameters.relative_gap_limit = (max(gap, _NEAR) if gap else 0) / FRACTION_GRID
    status = solver.solve(cabin.model)
    if status == cp_model.INFEASIBLE:
        return _Answer(None, 0, is_least=False, infeasible=True)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return _Answer(None, 0, is_least=False, infeasible=False)
    fraction = solver.value(cabin.fraction)
    least = fraction <= round(solver.best_objective_bound)
    loads = _read(cabin, solver)
    cabin.model.add(cabin.fraction <= fraction)
    for variable in (*cabin.on.values(), *cabin.units.values(), *cabin.used, cabin.fraction):
        cabin.model.add_hint(variable, solver.value(variable))
    cabin.model.minimize(_parts(cabin))
    again = replace(run, seconds=min(run.seconds, _TIDY_SECONDS)).solver()
    if again.solve(cabin.model) in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        loads = _read(cabin, again)
    return _Answer(loads, fraction, is_least=least, infeasible=False)


def _parts(cabin: Cabin) -> cp_model.LinearExpr:
    """In how many parts classes of units fly."""
    parts = []
    for piece in cabin.freight.pieces:
        for f in cabin.numbers:
            part = cabin.model.new_bool_var(f"any {piece.unit_id} on {f}")
            cabin.model.add(cabin.units[piece.unit_id, f] <= piece.count * part)
            parts.append(part)
    return cp_model.LinearExpr.sum(parts)


def _read(cabin: Cabin, solver: cp_model.CpSolver) -> tuple[FlightLoad, ...]:
    freight = cabin.freight
    return tuple(
        FlightLoad(
            flight.flight_id,
            tuple(p.person_id for p in freight.people if solver.value(cabin.on[p.person_id, f])),
            tuple(
                Stowed(piece.unit_id, units, piece.mass_g, piece.volume_ml)
                for piece in freight.pieces
                if (units := solver.value(cabin.units[piece.unit_id, f]))
            ),
        )
        for f, flight in enumerate(freight.flights)
    )


def _is_infeasible(freight: Freight, rule_ids: tuple[str, ...], run: Run) -> bool:
    """Whether no assignment keeps these rules; false also where time runs out."""
    status = run.solver().solve(_build(freight, rule_ids).model)
    return bool(status == cp_model.INFEASIBLE)


def _clash(freight: Freight, run: Run) -> tuple[str, ...]:
    """Rules that have no assignment together, and of which none can be left out.

    A deletion filter over the rules: each is left out for good where what remains has none.
    """
    kept = _asked(freight)
    run = replace(run, seconds=min(run.seconds, _EXPLAIN_SECONDS))
    for rule_id in kept:
        fewer = tuple(other for other in kept if other != rule_id)
        if rule_id != "everything_flies_once" and _is_infeasible(freight, fewer, run):
            kept = fewer
    return kept
