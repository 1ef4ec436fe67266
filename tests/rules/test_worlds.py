"""The worlds of the rule tests: free of faults, one file a rule, each with both kinds of plan."""

from importlib import import_module

import pytest

from solver.problem.faults import find_faults
from solver.rulebook import RULES
from tests.rules.worlds import Case

CASES = [
    pytest.param(case, id=f"{rule.rule_id}: {case.name}")
    for rule in RULES
    for case in import_module(f"tests.rules.test_{rule.rule_id}").CASES
]


@pytest.mark.parametrize("case", CASES)
def test_a_world_is_a_problem_that_may_be_asked(case: Case):
    """A world with a plan has no faults, so that checker and model can be asked the same."""
    if case.solvable:
        assert find_faults(case.problem) == ()


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.rule_id)
def test_each_rule_is_kept_by_one_plan_and_broken_by_another(rule):
    """Among the cases of a rule the checker finds nothing in one and that rule in another."""
    cases = import_module(f"tests.rules.test_{rule.rule_id}").CASES
    assert any(case.finds == () for case in cases)
    assert any(rule.rule_id in dict(case.finds) for case in cases)
