"""Stove survives loss: of the stoves within reach of a trip, less any one carrier, one is left.

Within reach are the places that the trip's party visits on that day. For each trip with a night
still to come and each pack or sled of it: stoves standing there once the moment's trips have
arrived - stoves in it >= 1.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.holdings import pieces
from solver.checker.queries.listed_gear import is_listed
from solver.checker.queries.losses import loss_finding, nights_left, worst_loss
from solver.plan import Finding
from solver.problem import Purpose

RULE = "stove_survives_loss"


def stove_survives_loss(replay: Replay) -> Iterator[Finding]:
    """Trips on which one pack or sled has all the stoves within reach."""
    if not is_listed(replay.facts, Purpose.STOVE):
        return
    stoves = pieces(replay.facts, Purpose.STOVE)
    for record in replay.records:
        if nights_left(replay, record.trip) < 1:
            continue
        loss = worst_loss(replay, record, stoves, 1)
        if loss is not None:
            words = "there would be no stove"
            yield loss_finding(RULE, record, loss, words=words, unit="units")
