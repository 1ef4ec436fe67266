"""By how much rules on sharing units out must be broken, all others kept (CP-SAT)."""

from __future__ import annotations

from collections import defaultdict

from solver.model.cp_sat import cp_model
from solver.model.formulation.frame import Frame
from solver.model.run import Run
from solver.model.solvers.one_piece import MOST_EASED, build_one_piece


def least_easing(frame: Frame, run: Run) -> dict[str, int]:
    """The fewest rules on sharing out that must be broken, and what carriers then hold too much.

    Empty where there is no plan without these rules, or none was found in time.
    """
    piece = build_one_piece(frame, eased=True)
    if piece.impossible is not None or not piece.eased:
        return {}
    by_rule: dict[str, list[cp_model.IntVar]] = defaultdict(list)
    for rule_id, amount in piece.eased:
        by_rule[rule_id].append(amount)
    is_broken = {rule_id: piece.model.new_bool_var(rule_id) for rule_id in by_rule}
    for rule_id, amount in piece.eased:
        piece.model.add(amount <= MOST_EASED * is_broken[rule_id])
    every = [amount for amounts in by_rule.values() for amount in amounts]
    broken = list(is_broken.values())
    weights = [MOST_EASED] * len(broken) + [1] * len(every)
    piece.model.minimize(cp_model.LinearExpr.weighted_sum([*broken, *every], weights))
    solver = run.solver()
    if solver.solve(piece.model) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return {}
    total = {rule_id: sum(map(solver.value, amounts)) for rule_id, amounts in by_rule.items()}
    return {rule_id: amount for rule_id, amount in total.items() if amount}
