"""Fuel survives loss: without any one pack or sled, fuel for some nights is within reach.

Within reach are the places that the trip's party visits on that day. For each trip and each pack
or sled of it: fuel standing there once the moment's trips have arrived - fuel in it >= nights x
sum over cook groups of members there x fuel of the set where the group sleeps tonight. Nights are
`loss_fuel_hours` in whole days, rounded up, at most those still to come. All groups' fuel counts
together.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.holdings import fuel_ml
from solver.checker.queries.losses import loss_finding, members_in_reach, nights_within, worst_loss
from solver.checker.queries.telling import litres
from solver.plan import Finding
from solver.problem import Trip

RULE = "fuel_survives_loss"


def fuel_survives_loss(replay: Replay) -> Iterator[Finding]:
    """Trips on which losing one pack or sled leaves too little fuel within reach."""
    hours = replay.facts.problem.rules.whole("loss_fuel_hours")
    for record in replay.records:
        needed_ml = _burnt_ml(replay, record.trip) * nights_within(replay, record.trip, hours)
        if not needed_ml:
            continue
        worth = fuel_ml(replay.facts, record.trip.day - 1)
        loss = worst_loss(replay, record, worth, needed_ml)
        if loss is not None:
            words = f"{litres(loss.left)} of the {litres(needed_ml)} of fuel needed would be left"
            yield loss_finding(RULE, record, loss, words=words, unit="mL")


def _burnt_ml(replay: Replay, trip: Trip) -> int:
    """What the people at the ends of a trip burn on a night like tonight [mL]."""
    return sum(
        meal.night_set.fuel_ml
        * members_in_reach(replay, trip, replay.facts.problem.cook_group(meal.cook_group_id))
        for meal in replay.facts.meals
        if meal.day == trip.day
    )
