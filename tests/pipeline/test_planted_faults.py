"""The short round of planted faults; `python -m tests.planted_faults` plants them all."""

from __future__ import annotations

from functools import cache

import pytest

from solver.model.flights.rules import FLIGHT_BUILDERS
from solver.model.rules import BUILDERS
from solver.rulebook import RULES
from tests.planted_faults import Fault, caught_by, checker_faults, first_red, guards, model_faults


@cache
def removals() -> dict[tuple[str, bool], Fault]:
    """For each rule what takes it out of the model, and out of the checker."""
    faults = (*model_faults(), *checker_faults())
    return {(f.rule_id, f.in_model): f for f in faults if f.name.endswith(", removed")}


@pytest.mark.parametrize("in_model", [True, False], ids=["model", "checker"])
def test_no_guard_is_red_without_a_fault(*, in_model: bool) -> None:
    """On the sound program every guard passes, so that red means the fault."""
    assert first_red(guards("", in_model=in_model)) is None


@pytest.mark.parametrize(
    ("rule_id", "in_model"),
    [
        *((rule_id, True) for rule_id, _ in (*BUILDERS, *FLIGHT_BUILDERS)),
        *((rule.rule_id, False) for rule in RULES),
    ],
)
def test_a_rule_taken_out_is_missed(rule_id: str, *, in_model: bool) -> None:
    """Without any one rule of the model or of the checker, a test of the suite fails."""
    assert caught_by(removals()[rule_id, in_model]) is not None
