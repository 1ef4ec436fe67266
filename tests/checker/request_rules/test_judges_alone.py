"""Each rule on the request judges the worlds of its own test file, without any other rule."""

from importlib import import_module

import pytest

from solver.checker.ledger.facts import read_facts
from solver.checker.request_rules import REQUEST_RULES

CASES = [
    pytest.param(judge, rule_id, case, id=f"{rule_id}: {case.name}")
    for rule_id, judge in REQUEST_RULES
    for case in import_module(f"tests.rules.test_{rule_id}").CASES
]


@pytest.mark.parametrize(("judge", "rule_id", "case"), CASES)
def test_a_judge_alone_finds_what_its_case_says(judge, rule_id, case):
    """The amounts that a judge finds in the facts are those of its case, under its own id."""
    asked = case.problem.asks(rule_id)
    found = tuple((f.rule_id, f.amount) for f in judge(read_facts(case.problem))) if asked else ()
    assert found == tuple(pair for pair in case.finds if pair[0] == rule_id)
