"""Shelter survives loss: without any one pack or sled, shelter for all is within reach.

Within reach are the places that the trip's party visits on that day. For each trip and each pack
or sled of it: places of the shelters standing there once the moment's trips have arrived -
places of those in it >= people there.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.holdings import shelter_places
from solver.checker.queries.listed_gear import is_listed
from solver.checker.queries.losses import loss_finding, people_in_reach, worst_loss
from solver.plan import Finding
from solver.problem import Purpose

RULE = "shelter_survives_loss"


def shelter_survives_loss(replay: Replay) -> Iterator[Finding]:
    """Trips on which losing one pack or sled leaves somebody without shelter."""
    if not is_listed(replay.facts, Purpose.SHELTER):
        return
    places = shelter_places(replay.facts)
    for record in replay.records:
        people = len(people_in_reach(replay, record.trip))
        loss = worst_loss(replay, record, places, people)
        if loss is not None:
            words = f"shelters for {loss.left} of {people} people would be left"
            yield loss_finding(RULE, record, loss, words=words, unit="places")
