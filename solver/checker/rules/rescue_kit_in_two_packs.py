"""Rescue kit in two packs: of k >= 2 pieces on a trip, at most k - 1 in one pack or sled."""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.apart import all_in_one
from solver.plan import Finding
from solver.problem import Purpose

RULE = "rescue_kit_in_two_packs"


def rescue_kit_in_two_packs(replay: Replay) -> Iterator[Finding]:
    """Packs and sleds that have all the rescue kit of a trip."""
    return all_in_one(replay, RULE, Purpose.RESCUE_KIT, "pieces of rescue kit")
