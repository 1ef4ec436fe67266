"""Why there is no plan: which caps are too small and by how much, or which rules clash.

Questions asked of the relaxation with divisible loads, where "no" is a proof. First:
if every load could pass its cap, where would it have to, by the least total share of caps?
That names people, trips and missing kilograms or litres. Second, where no cap helps or only
whole units do not fit: which rows on what must be somewhere fall short, by the least total
share? Where that finds nothing either, a deletion
filter (J. W. Chinneck and E. W. Dravnieks, "Locating minimal infeasible constraint sets in
linear programs", ORSA J. Computing 3, 1991) leaves out one rule after the other for good
whenever what remains still has no plan; the rules that cannot be left out clash.
"""

from __future__ import annotations

from dataclasses import replace

from solver.model.formulation.build_frame import build_frame, rows_of, sort_rows
from solver.model.formulation.frame import Frame
from solver.model.formulation.redundant_losses import without_redundant_losses
from solver.model.infeasible.blamed_pins import blame_pins
from solver.model.infeasible.overloads import tell_overloads
from solver.model.infeasible.shortages import describe_shortages
from solver.model.infeasible.whole_units import units_that_fit_nowhere
from solver.model.instance.world import World
from solver.model.rows import CarrierRow, ConserveRow, OwnRow, Row
from solver.model.run import Run
from solver.model.solvers.relaxation_refusals import is_impossible, least_excess, least_shortage
from solver.model.solvers.relaxation_rows import build_relaxation
from solver.model.solvers.solve_one_piece import least_peak
from solver.outcome import Conflict
from solver.progress import Watch
from solver.rulebook import rule

_STRUCTURE = (CarrierRow, ConserveRow, OwnRow)
"""Rows that say what the world is like; no plan could be told without them."""

_APART_SECONDS = 3.0
"""Time for trying whether there is a plan without one rule [s]."""

_SECONDS = 10.0
"""Time for one question to the linear solver; each takes a small part of it [s]."""


def explain(frame: Frame, watch: Watch, *, seed: int = 1) -> tuple[Conflict, ...]:
    """A conflict to show with an infeasible problem; never empty. Work is counted in steps.

    Pins come first: where they alone leave no plan, they are named with what they break.
    """
    if frame.pin_rows:
        if blamed := blame_pins(frame, watch, seed=seed):
            return blamed
        frame = without_redundant_losses(build_frame(replace(frame.world.problem, pins=())))
    missing = least_excess(build_relaxation(frame, with_excess=True, steady=True), seconds=_SECONDS)
    if missing:
        return tell_overloads(frame, missing, seconds=_SECONDS)
    relaxation = build_relaxation(
        frame,
        with_excess=missing is None,
        with_shortage=True,
        short_is_unused=True,
        steady=True,
    )
    short = least_shortage(relaxation, seconds=_SECONDS)
    if short:
        return describe_shortages(frame, short)
    rows = rows_of(frame.world)
    if missing is None and _hopeless(frame.world, rows):
        return _tell_clash(_clash(frame.world, rows, watch))
    return _tell_whole_units(frame, watch, seed)


def _tell_whole_units(frame: Frame, watch: Watch, seed: int) -> tuple[Conflict, ...]:
    """What to look at where the totals fit and whole units do not.

    A rule on keeping things apart is named where there is a plan without it.
    """
    problem = frame.world.problem
    told = (row.rule_id for rows in frame.spread_rows for row in rows)
    for rule_id in dict.fromkeys(told):
        off = replace(problem.rules, switched_off=problem.rules.switched_off | {rule_id})
        without = without_redundant_losses(build_frame(replace(problem, rules=off)))
        run = Run(_APART_SECONDS, seed=seed, steady=True, should_stop=watch.is_over)
        answer = least_peak(without, run)
        if answer.draft is not None:
            return (
                Conflict(
                    rule_id,
                    f"The totals would fit, but not with this rule. {rule(rule_id).sentence} "
                    "A party with one pack and no sled cannot keep two things apart.",
                ),
            )
    if large := units_that_fit_nowhere(frame):
        return large
    return (
        Conflict(
            "pack_cap_held",
            "The totals would fit, but no way of sharing out whole units keeps every rule: "
            "look at large single items and at people who carry alone.",
        ),
    )


def _tell_clash(rule_ids: list[str]) -> tuple[Conflict, ...]:
    return tuple(Conflict(rule_id, rule(rule_id).sentence) for rule_id in rule_ids)


def _hopeless(world: World, rows: list[Row]) -> bool:
    """Whether not even divisible units and loads have a plan under these rows."""
    relaxation = build_relaxation(sort_rows(world, rows), steady=True)
    return is_impossible(relaxation, seconds=_SECONDS, divisible=True)


def _clash(world: World, rows: list[Row], watch: Watch) -> list[str]:
    """The rules that cannot be left out, where the rows of all of them have no plan."""
    for rule_id in dict.fromkeys(r.rule_id for r in rows if not isinstance(r, _STRUCTURE)):
        if watch.is_over():
            break
        fewer = [r for r in rows if isinstance(r, _STRUCTURE) or r.rule_id != rule_id]
        if len(fewer) < len(rows) and _hopeless(world, fewer):
            rows = fewer
    return list(dict.fromkeys(r.rule_id for r in rows if not isinstance(r, _STRUCTURE)))
