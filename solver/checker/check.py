"""The check of a plan: every finding of every rule that is asked, and the goals recomputed."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field

from solver.checker.goals import recomputed_goals
from solver.checker.ledger.facts import Facts, read_facts
from solver.checker.ledger.replay import replay
from solver.checker.queries.container_reasons import ContainerReason, container_reasons
from solver.checker.queries.keepers import keepers
from solver.checker.queries.weak_share import Judges, WeakShare, weak_share
from solver.checker.request_rules import REQUEST_RULES
from solver.checker.rules import RULES
from solver.plan import Finding, Keeper, Plan, Remark
from solver.problem import Problem, Timeline
from solver.rulebook import RuleKind
from solver.rulebook.flights import FLIGHTS


@dataclass(frozen=True, slots=True)
class CheckReport:
    """What the check saw; a plan without findings keeps every hard rule in `rules_checked`.

    `keepers` are as the loads have them, whatever the plan says of them.
    """

    findings: tuple[Finding, ...]
    goals: tuple[tuple[str, int], ...]
    rules_checked: tuple[str, ...]
    remarks: tuple[Remark, ...] = ()
    keepers: tuple[Keeper, ...] = ()


@dataclass(frozen=True, slots=True)
class RequestReport:
    """What the request alone breaks, whatever the plan.

    Where there are findings no plan can serve. `facts` are what the check of any plan of this
    request goes on from.
    """

    findings: tuple[Finding, ...]
    remarks: tuple[Remark, ...]
    rules_checked: tuple[str, ...]
    facts: Facts = field(compare=False, repr=False)


def check_request(problem: Problem, timeline: Timeline | None = None) -> RequestReport:
    """Judge what no plan can change of a problem without faults.

    Who has read the problem's timeline hands it on.
    """
    asked = [(rule_id, judge) for rule_id, judge in REQUEST_RULES if problem.asks(rule_id)]
    return _judged(problem, timeline, asked)


def check_hard_request(problem: Problem, timeline: Timeline | None = None) -> RequestReport:
    """The same by the hard rules alone, for a caller who asks no more than whether it stands.

    What may be remarked takes more than half of the time of a whole check.
    """
    return _judged(
        problem, timeline, [rule for rule in REQUEST_RULES if problem.must_keep(rule[0])]
    )


def _judged(
    problem: Problem,
    timeline: Timeline | None,
    asked: Sequence[tuple[str, Callable[[Facts], Iterable[Finding]]]],
) -> RequestReport:
    facts = read_facts(problem, timeline)
    found = (f for _, judge in asked for f in judge(facts) if not _is_over(problem, f))
    findings, remarks = _sorted(problem, found)
    return RequestReport(findings, remarks, tuple(rule_id for rule_id, _ in asked), facts)


def check_plan(request: RequestReport, plan: Plan, former: Plan | None = None) -> CheckReport:
    """Judge a plan, whoever made it, of a request that has been judged.

    All findings are given, whatever is wrong with the plan; rules that the request switched
    off are not asked. With a `former` plan, how far the plan is from it is one of the goals.
    """
    problem = request.facts.problem
    replayed = replay(request.facts, plan)
    found = {
        rule_id: tuple(f for f in judge(replayed) if not _is_over(problem, f))
        for rule_id, judge in RULES
        if problem.asks(rule_id)
    }
    findings, remarks = _sorted(problem, (f for its in found.values() for f in its))
    return CheckReport(
        findings=findings + request.findings,
        goals=recomputed_goals(replayed, found, former),
        rules_checked=tuple(found) + request.rules_checked,
        remarks=remarks + request.remarks,
        keepers=keepers(replayed),
    )


def why_containers(problem: Problem, plan: Plan, timeline: Timeline) -> tuple[ContainerReason, ...]:
    """Why each fuel container of a plan is taken along, of a plan that breaks no hard rule.

    Flights are left aside: they are settled for whatever is taken.
    """
    of_flights = {rule.rule_id for rule in FLIGHTS}
    judges = tuple(one for one in _hard_rules(problem) if one[0] not in of_flights)
    return container_reasons(replay(read_facts(problem, timeline), plan), judges)


def why_so_much(problem: Problem, plan: Plan, timeline: Timeline) -> WeakShare | None:
    """What the people with the least cap carry, and why, in a plan that breaks no hard rule."""
    return weak_share(replay(read_facts(problem, timeline), plan), _hard_rules(problem))


def _hard_rules(problem: Problem) -> Judges:
    return tuple((rule_id, judge) for rule_id, judge in RULES if problem.must_keep(rule_id))


def first_finding(request: RequestReport, plan: Plan) -> Finding | None:
    """The first hard rule that a plan of a judged request breaks; None where it keeps them all.

    This is what a caller asks who needs no more than whether a plan stands.
    """
    problem = request.facts.problem
    replayed = replay(request.facts, plan)
    found = (
        finding
        for rule_id, judge in RULES
        if problem.must_keep(rule_id)
        for finding in judge(replayed)
        if not _is_over(problem, finding)
    )
    return next(iter(request.findings), None) or next(found, None)


def check(problem: Problem, plan: Plan, timeline: Timeline | None = None) -> CheckReport:
    """Judge a problem without faults and a plan of it at once."""
    return check_plan(check_request(problem, timeline), plan)


def _is_over(problem: Problem, finding: Finding) -> bool:
    """Whether all that a finding is about lies in the past, where nothing can be changed."""
    history, where = problem.history, dict(finding.where)
    last_day = where.get("last_day", where.get("day"))
    if history is None or not isinstance(last_day, int):
        return False
    return last_day <= (history.day if "step" in where else history.nights)


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
