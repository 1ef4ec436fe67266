"""Pumps kept apart: of k >= 2 stove pumps on a trip, at most k - 1 in one pack or sled.

Documents: polar-weight.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.apart import all_in_one
from solver.plan import Finding
from solver.problem import Purpose

RULE = "pumps_kept_apart"


def pumps_kept_apart(replay: Replay) -> Iterator[Finding]:
    """Packs and sleds that have all the pumps of a trip."""
    return all_in_one(replay, RULE, Purpose.PUMP, "stove pumps")
