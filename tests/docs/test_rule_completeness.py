"""Each rule of the rulebook has its judge, its test file and its rows in the model."""

from importlib import import_module
from importlib.util import find_spec
from pathlib import Path

import pytest

from solver.checker.request_rules import REQUEST_RULES as REQUEST_JUDGES
from solver.checker.rules import RULES as JUDGES
from solver.rulebook import RULES, rule

ROOT = Path(__file__).parents[2]
RULE_IDS = [rule.rule_id for rule in RULES]


def _modules(folder: str) -> set[str]:
    return {file.stem for file in (ROOT / folder).glob("*.py")} - {"__init__"}


def test_rule_ids_are_unique_and_found():
    """No two rules share an id, and each is found by it."""
    assert len(set(RULE_IDS)) == len(RULE_IDS)
    assert [rule(rule_id).rule_id for rule_id in RULE_IDS] == RULE_IDS


PLAN_RULES = [rule_id for rule_id, _ in JUDGES]
REQUEST_RULES = [rule_id for rule_id, _ in REQUEST_JUDGES]


def test_the_checker_judges_each_rule_once():
    """The checker's two registers name every rule of the rulebook, and no other."""
    assert sorted(PLAN_RULES + REQUEST_RULES) == sorted(RULE_IDS)


@pytest.mark.parametrize(
    ("folder", "rule_id", "judge"),
    [
        *(("rules", rule_id, judge) for rule_id, judge in JUDGES),
        *(("request_rules", rule_id, judge) for rule_id, judge in REQUEST_JUDGES),
    ],
)
def test_each_judge_lives_in_a_module_of_its_own_name(folder, rule_id, judge):
    """A rule's judge has the rule's name, as its module has, whose docstring begins with it."""
    module = import_module(f"solver.checker.{folder}.{rule_id}")
    assert getattr(module, rule_id) is judge
    assert rule_id == module.RULE
    words = rule_id.replace("_", " ").capitalize()
    assert (module.__doc__ or "").startswith(f"{words}: ")


def test_no_module_of_the_checkers_rules_is_left_out():
    """Every module beside a register is the judge of a rule."""
    assert _modules("solver/checker/rules") == set(PLAN_RULES)
    assert _modules("solver/checker/request_rules") == set(REQUEST_RULES)


@pytest.mark.parametrize("rule_id", RULE_IDS)
def test_each_rule_has_a_test_file_with_cases(rule_id):
    """A rule's test file has cases with the rule kept and broken, for checker and model."""
    cases = import_module(f"tests.rules.test_{rule_id}").CASES
    assert any(rule_id in dict(case.finds) for case in cases)
    assert any(rule_id not in dict(case.finds) for case in cases)


def test_the_model_builds_each_rule_or_says_why_only_the_checker_asks_it():
    """Every rule on plans has a builder in the model, or a reason why it need not be built."""
    if find_spec("solver.model.rules") is None:
        pytest.skip("the model has no rules yet")
    model = import_module("solver.model.rules")
    flights = import_module("solver.model.flights.rules")
    built = [rule_id for rule_id, _ in (*model.BUILDERS, *flights.FLIGHT_BUILDERS)]
    assert sorted([*built, *model.CHECKED_ONLY]) == sorted(PLAN_RULES)
    assert all(reason.strip() for reason in model.CHECKED_ONLY.values())
