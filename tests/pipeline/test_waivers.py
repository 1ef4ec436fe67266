"""Hard rules stated as cautions: the search lets them go, the check tells them with the reason."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from service.translate.read.requests import read_plan_request
from solver.model.rules import BUILDERS
from solver.outcome import Limits, Solved
from solver.pipeline import plan
from solver.problem import Problem
from solver.rulebook import rule
from tests.rules.worlds import asked_alone, item, on_glacier, person, world

THREE = Path(__file__).parents[2] / "examples" / "independent-three.json"
REASON = "the leader has seen the place"
SOFT = [rule_id for rule_id, _ in BUILDERS if not rule(rule_id).firm]


def stated(problem: Problem, rule_id: str) -> Problem:
    """The problem with one hard rule stated as a caution."""
    rules = replace(problem.rules, waived=((rule_id, REASON),))
    return replace(problem, rules=rules)


@pytest.mark.parametrize("rule_id", SOFT)
def test_any_hard_rule_that_is_not_firm_may_be_let_go(rule_id: str) -> None:
    """Model and checker agree on a plan without it, and what breaks it comes with the reason."""
    problem = read_plan_request(json.loads(THREE.read_text(encoding="utf-8"))).problem
    outcome = plan(stated(problem, rule_id), Limits(wall_seconds=20.0, workers=1, gap=100))
    assert isinstance(outcome, Solved)
    told = [remark for remark in outcome.remarks if remark.finding.rule_id == rule_id]
    assert all(remark.reason == REASON for remark in told)


def test_what_is_broken_is_told_with_the_reason() -> None:
    """Two tents in the only pack have a plan once the rule only warns, and are told twice."""
    kinds = tuple(item(name, apart_kind="tent") for name in ("one", "other"))
    problem = asked_alone(on_glacier(world(people=(person(),), gear=kinds)))
    outcome = plan(stated(problem, "kinds_kept_apart"), Limits(wall_seconds=20.0, workers=1))
    assert isinstance(outcome, Solved)
    told = [r for r in outcome.remarks if r.finding.rule_id == "kinds_kept_apart"]
    assert [(r.finding.amount, r.reason) for r in told] == [(1, REASON), (1, REASON)]
