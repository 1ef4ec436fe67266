"""The check of a plan: every finding of every rule that holds, and the goals recomputed."""

from __future__ import annotations

from dataclasses import dataclass

from solver.checker.goals import GOALS
from solver.checker.replay import replay
from solver.checker.rules import RULES
from solver.plan import Finding, Plan
from solver.problem import Problem


@dataclass(frozen=True, slots=True)
class CheckReport:
    """What the check saw; a plan without findings keeps every rule in `rules_checked`."""

    findings: tuple[Finding, ...]
    goals: tuple[tuple[str, int], ...]
    rules_checked: tuple[str, ...]


def check(problem: Problem, plan: Plan) -> CheckReport:
    """Judge a plan, whoever made it, of a problem without faults.

    All findings are given, whatever is wrong with the plan; rules that the request switched
    off are not asked.
    """
    replayed = replay(problem, plan)
    asked = [
        (rule_id, rule) for rule_id, rule in RULES if rule_id not in problem.rules.switched_off
    ]
    return CheckReport(
        findings=tuple(finding for _, rule in asked for finding in rule(replayed)),
        goals=tuple((goal_id, value(replayed)) for goal_id, value in GOALS),
        rules_checked=tuple(rule_id for rule_id, _ in asked),
    )
