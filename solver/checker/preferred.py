"""The goal of preferences: how often a plan does not keep those that the search steers by."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.rules.guides_carry_rescue_kit import guides_carry_rescue_kit
from solver.checker.rules.heaviest_days_limited import heaviest_days_limited
from solver.checker.rules.last_on_rope_light import last_on_rope_light
from solver.checker.rules.lead_sled_light import lead_sled_light
from solver.checker.rules.sled_light_on_traverse import sled_light_on_traverse
from solver.checker.rules.sled_share_downhill import sled_share_downhill
from solver.checker.rules.sled_share_uphill import sled_share_uphill
from solver.plan import Finding

STEERED: tuple[tuple[str, Callable[[Replay], Iterator[Finding]]], ...] = (
    ("heaviest_days_limited", heaviest_days_limited),
    ("sled_share_uphill", sled_share_uphill),
    ("sled_share_downhill", sled_share_downhill),
    ("sled_light_on_traverse", sled_light_on_traverse),
    ("last_on_rope_light", last_on_rope_light),
    ("lead_sled_light", lead_sled_light),
    ("guides_carry_rescue_kit", guides_carry_rescue_kit),
)
"""Preferences that count in the goal, as far as the request asks them."""


def preferences(replay: Replay) -> int:
    """Findings of the steered preferences that are asked of this request [1]."""
    problem = replay.facts.problem
    return sum(1 for rule_id, judge in STEERED if problem.asks(rule_id) for _ in judge(replay))
