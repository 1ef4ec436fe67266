"""Communicator survives loss: without any one pack or sled, one is within reach.

Within reach are the places that the trip's party visits on that day. For each trip and each pack
or sled of it: communicators standing there once the moment's trips have arrived - those in it
+ those worn by people there >= 1.

Documents: polar-weight.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.holdings import pieces
from solver.checker.queries.listed_gear import is_listed
from solver.checker.queries.losses import loss_finding, people_in_reach, worst_loss
from solver.checker.queries.worn import purpose_worn_by
from solver.plan import Finding
from solver.problem import Purpose

RULE = "communicator_survives_loss"


def communicator_survives_loss(replay: Replay) -> Iterator[Finding]:
    """Trips on which one pack or sled has all the communicators within reach."""
    if not is_listed(replay.facts, Purpose.COMMUNICATOR):
        return
    communicators = pieces(replay.facts, Purpose.COMMUNICATOR)
    for record in replay.records:
        people = people_in_reach(replay, record.trip)
        if purpose_worn_by(replay.facts, Purpose.COMMUNICATOR, people):
            continue
        loss = worst_loss(replay, record, communicators, 1)
        if loss is not None:
            words = "there would be no communicator"
            yield loss_finding(RULE, record, loss, words=words, unit="units")
