"""The goal of preferences: how often a plan does not keep those that the search steers by."""

from __future__ import annotations

from solver.checker.ledger.replay import Replay
from solver.checker.rules import RULES
from solver.rulebook import rule


def preferences(replay: Replay) -> int:
    """Findings of the steered preferences that are asked of this request [1]."""
    problem = replay.facts.problem
    asked = (judge for rule_id, judge in RULES if rule(rule_id).steered and problem.asks(rule_id))
    return sum(1 for judge in asked for _ in judge(replay))
