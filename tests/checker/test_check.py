"""The check: a request is judged once, and plans of it go on from there."""

from dataclasses import replace
from importlib import import_module
from unittest.mock import patch

import pytest

from solver.checker.check import check, check_hard_request, check_plan, check_request
from solver.outcome import Limits, Solved
from solver.pipeline import plan as solve
from solver.plan import Finding
from solver.problem import read_timeline
from solver.rulebook import RuleKind
from tests.rules.test_fuel_spread import CASES
from tests.rules.test_seats_for_all import CASES as SEATS
from tests.rules.worlds import item, plan_of, world

CHECK = import_module("solver.checker.check")
"""The module; the package has a function of the same name."""

HARD, SOFT = "seats_for_all", "menu_varied"


def _register(asked):
    """A register of two rules on the request that note when they are asked."""

    def judge(rule_id):
        def judged(facts):
            asked.append(rule_id)
            yield Finding(rule_id, "", 1, "units")

        return judged

    return tuple((rule_id, judge(rule_id)) for rule_id in (HARD, SOFT))


def test_who_asks_only_whether_a_request_stands_is_told_by_hard_rules_alone():
    """Both find the broken hard rule; the soft one is not even asked, and nothing is remarked."""
    asked: list[str] = []
    with (
        patch.object(CHECK, "REQUEST_RULES", _register(asked)),
        patch("solver.problem.problem.Problem.asks", lambda self, rule_id: True),
    ):
        whole, hard = check_request(world()), check_hard_request(world())
    assert asked == [HARD, SOFT, HARD]
    assert [one.rule_id for one in hard.findings] == [HARD]
    assert (hard.findings, hard.remarks) == (whole.findings, ())
    assert len(whole.remarks) == 1


def test_a_request_is_judged_once_for_all_its_plans():
    """Two plans of one report ask the request's rules no second time, and both carry them."""
    asked: list[str] = []
    problem = world(gear=(item("rope"),))
    with (
        patch.object(CHECK, "REQUEST_RULES", _register(asked)),
        patch("solver.problem.problem.Problem.asks", lambda self, rule_id: True),
    ):
        request = check_request(problem)
        reports = [check_plan(request, plan_of(problem, load, {})) for load in ({}, {"m1": "rope"})]
    assert asked == [HARD, SOFT]
    assert [finding.rule_id for finding in request.findings] == [HARD]
    assert [(r.kind, r.finding.rule_id) for r in request.remarks] == [(RuleKind.PREFERENCE, SOFT)]
    for report in reports:
        assert request.findings[0] in report.findings
        assert set(request.rules_checked) <= set(report.rules_checked)


def test_the_pipeline_judges_a_request_once():
    """From a problem to a proven plan no rule on the request is asked twice."""
    problem = world(gear=(item("rope"),))
    asked: list[str] = []

    def counted(rule_id, judge):
        def judged(facts):
            asked.append(rule_id)
            return judge(facts)

        return judged

    register = tuple((i, counted(i, judge)) for i, judge in CHECK.REQUEST_RULES)
    with patch.object(CHECK, "REQUEST_RULES", register):
        outcome = solve(problem, Limits(wall_seconds=10.0, workers=1, seed=1))
    assert isinstance(outcome, Solved)
    assert len(asked) == len(set(asked)) > 0


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_check_at_once_is_the_check_in_two_steps(case):
    """Both ways find the same, with or without a timeline that is handed on."""
    request = check_request(case.problem, read_timeline(case.problem))
    assert check_plan(request, case.plan) == check(case.problem, case.plan)


def test_a_rule_that_is_let_go_is_remarked_with_its_reason():
    """What a hard rule finds is no finding once the request lets go of it."""
    case = next(case for case in SEATS if case.finds)
    ((rule_id, _),) = case.finds
    rules = replace(case.problem.rules, waived=((rule_id, "two sit in the nose"),))
    report = check_request(replace(case.problem, rules=rules))
    assert [finding for finding in report.findings if finding.rule_id == rule_id] == []
    assert [r.reason for r in report.remarks if r.finding.rule_id == rule_id] == [
        "two sit in the nose"
    ]
