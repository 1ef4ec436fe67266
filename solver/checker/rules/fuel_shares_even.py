"""Fuel shares even: at a new camp the fullest container <= a share of the cook group's fuel there.

On the first night of each stay of a cook group that burns fuel, before it is used: 100 x fuel in
the fullest <= `container_share_percent` x all of it. The amount is what is missing in others.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.arrivals import arrivals
from solver.checker.queries.telling import litres
from solver.plan import Finding
from solver.quantities import units_up

RULE = "fuel_shares_even"


def fuel_shares_even(replay: Replay) -> Iterator[Finding]:
    """Arrivals of cook groups at a camp where much of the fuel is in one container."""
    percent = replay.facts.problem.rules.whole("container_share_percent")
    for arrival in arrivals(replay):
        fullest_ml = max(arrival.containers_ml, default=0)
        there_ml = sum(arrival.containers_ml)
        wanted_ml = units_up(amount=100 * fullest_ml, per_unit=percent)
        if there_ml < wanted_ml:
            yield Finding(
                RULE,
                f"{arrival.words}: one container holds {litres(fullest_ml)} of "
                f"{litres(there_ml)} there, more than {percent} %",
                wanted_ml - there_ml,
                "mL",
                arrival.where,
            )
