"""The pipeline asked of the worlds of every rule's tests: a plan there where one can be."""

from importlib import import_module

import pytest

from solver.errors import FaultyProblemError
from solver.outcome import Infeasible, Limits, Outcome, Solved
from solver.pipeline import plan
from solver.rulebook import RULES
from tests.rules.worlds import Case, RequestCase

STEADY = Limits(wall_seconds=30.0, workers=1, seed=1)

CASES: list[tuple[str, Case | RequestCase]] = [
    (rule.rule_id, case)
    for rule in RULES
    for case in import_module(f"tests.rules.test_{rule.rule_id}").CASES
]


def answer(case: Case | RequestCase) -> Outcome | None:
    """What the pipeline makes of a case's world; None where it finds fault with the question."""
    try:
        return plan(case.problem, STEADY)
    except FaultyProblemError:
        return None


@pytest.mark.parametrize(
    "case", [pytest.param(case, id=f"{rule_id}: {case.name}") for rule_id, case in CASES]
)
def test_a_world_has_a_plan_exactly_where_one_is_possible(case: Case | RequestCase) -> None:
    """At and below each rule's limit a plan is found and proven, above it there is none."""
    outcome = answer(case)
    if case.solvable:
        assert isinstance(outcome, Solved)
        assert outcome.goals[0].proven
    else:
        assert outcome is None or isinstance(outcome, Infeasible)
