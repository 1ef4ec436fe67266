"""Fuel in two containers: full and open ones of a cook group at a new camp >= 2.

On the first night of each stay of a cook group that burns fuel, before it is used.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.arrivals import arrivals
from solver.plan import Finding

RULE = "fuel_in_two_containers"


def fuel_in_two_containers(replay: Replay) -> Iterator[Finding]:
    """Arrivals of cook groups at a camp where one leak would take all their fuel."""
    for arrival in arrivals(replay):
        there = len(arrival.containers_ml)
        if there < 2:
            yield Finding(
                RULE,
                f"{arrival.words}: {there} containers with fuel there, 2 needed",
                2 - there,
                "containers",
                arrival.where,
            )
