"""How long a party can sit where it is, in one sentence."""

from __future__ import annotations

from collections.abc import Sequence

from solver.checker.queries.words import counted
from solver.outlook import Wait


def waiting_words(now: Sequence[Wait]) -> str:
    """How long one can sit at a place, and when the turn-round stock is reached.

    `now` are the waits of every cook group at the moment; the shortest is told.
    """
    plan = min(now, key=lambda w: w.within_plan.nights)
    nights, limit = plan.within_plan.nights, plan.within_plan.limit
    if nights > 0:
        can = (
            f"You can sit {counted(nights, 'more night')} at {plan.place_id} without the plan "
            f"missing anything ({limit} is short first)"
        )
    else:
        can = f"You can sit no more nights at {plan.place_id}: the plan needs all the {limit} there"
    turn = min((w.until_turn_round for w in now), key=lambda one: one.nights)
    reached = counted(turn.nights + 1, "more night")
    return f"{can}; with {reached} you are down to the turn-round stock ({turn.limit})."
