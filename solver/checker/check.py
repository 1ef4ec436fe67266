"""The check of a plan: every finding of every rule that is asked, and the goals recomputed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from solver.checker.goals import GOALS
from solver.checker.ledger.facts import Facts, read_facts
from solver.checker.ledger.replay import replay
from solver.checker.request_rules import REQUEST_RULES
from solver.checker.rules import RULES
from solver.plan import Finding, Plan, Remark
from solver.problem import Problem
from solver.rulebook import RuleKind


@dataclass(frozen=True, slots=True)
class CheckReport:
    """What the check saw; a plan without findings keeps every hard rule in `rules_checked`."""

    findings: tuple[Finding, ...]
    goals: tuple[tuple[str, int], ...]
    rules_checked: tuple[str, ...]
    remarks: tuple[Remark, ...] = ()


@dataclass(frozen=True, slots=True)
class RequestReport:
    """What the request alone breaks, whatever the plan."""

    findings: tuple[Finding, ...]
    remarks: tuple[Remark, ...]
    rules_checked: tuple[str, ...]


def check_request(problem: Problem) -> RequestReport:
    """Judge what no plan can change of a problem without faults."""
    return _judge_request(read_facts(problem))


def refusals(problem: Problem) -> tuple[Finding, ...]:
    """What hard rules on the request find in a problem without faults: then no plan can serve."""
    facts = read_facts(problem)
    return tuple(
        finding
        for rule_id, judge in REQUEST_RULES
        if problem.must_keep(rule_id)
        for finding in judge(facts)
    )


def check(problem: Problem, plan: Plan) -> CheckReport:
    """Judge a plan, whoever made it, of a problem without faults.

    All findings are given, whatever is wrong with the plan; rules that the request switched
    off are not asked.
    """
    replayed = replay(problem, plan)
    asked = [(rule_id, judge) for rule_id, judge in RULES if problem.asks(rule_id)]
    findings, remarks = _sorted(problem, (f for _, judge in asked for f in judge(replayed)))
    request = _judge_request(replayed.facts)
    return CheckReport(
        findings=findings + request.findings,
        goals=tuple((goal_id, value(replayed)) for goal_id, value in GOALS),
        rules_checked=tuple(rule_id for rule_id, _ in asked) + request.rules_checked,
        remarks=remarks + request.remarks,
    )


def _judge_request(facts: Facts) -> RequestReport:
    problem = facts.problem
    asked = [(rule_id, judge) for rule_id, judge in REQUEST_RULES if problem.asks(rule_id)]
    findings, remarks = _sorted(problem, (f for _, judge in asked for f in judge(facts)))
    return RequestReport(findings, remarks, tuple(rule_id for rule_id, _ in asked))


def _sorted(
    problem: Problem, found: Iterable[Finding]
) -> tuple[tuple[Finding, ...], tuple[Remark, ...]]:
    """Findings of hard rules apart from those that only say something."""
    findings: list[Finding] = []
    remarks: list[Remark] = []
    for finding in found:
        kind = problem.rules.kind_of(finding.rule_id)
        if kind is RuleKind.HARD:
            findings.append(finding)
        else:
            remarks.append(Remark(kind, finding, problem.rules.reason_for(finding.rule_id)))
    return tuple(findings), tuple(remarks)
