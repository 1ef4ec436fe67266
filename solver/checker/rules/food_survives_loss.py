"""Food survives loss: without any one pack or sled, food for some nights is within reach.

Within reach are the places that the trip's party visits on that day. For each trip, cook group
with members there and pack or sled of it: night sets of the group standing there once the
moment's trips have arrived - those in it >= members there x nights. Nights are `loss_food_hours`
in whole days, rounded up, at most those still to come.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.holdings import night_sets
from solver.checker.queries.losses import loss_finding, members_in_reach, nights_within, worst_loss
from solver.plan import Finding

RULE = "food_survives_loss"


def food_survives_loss(replay: Replay) -> Iterator[Finding]:
    """Trips on which losing one pack or sled leaves a cook group too little food within reach."""
    hours = replay.facts.problem.rules.whole("loss_food_hours")
    worth = {
        group.cook_group_id: night_sets(replay.facts, group.cook_group_id)
        for group in replay.facts.problem.cook_groups
    }
    for record in replay.records:
        nights = nights_within(replay, record.trip, hours)
        for group in replay.facts.problem.cook_groups:
            needed = members_in_reach(replay, record.trip, group) * nights
            loss = worst_loss(replay, record, worth[group.cook_group_id], needed)
            if loss is not None:
                words = (
                    f"{loss.left} of the {needed} night sets that cook group "
                    f"{group.cook_group_id} needs would be left"
                )
                yield loss_finding(
                    RULE, record, loss, words=words, unit="night sets", group=group.cook_group_id
                )
