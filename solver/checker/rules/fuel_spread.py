"""Fuel spread: of k full and open containers of a cook group on a trip, 2 x in one <= k + 1."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from solver.checker.ledger.loads import Carrier
from solver.checker.ledger.replay import Replay
from solver.checker.ledger.units import UnitKind
from solver.checker.queries.telling import carrier_where, trip_where, trip_words
from solver.plan import Finding

RULE = "fuel_spread"


def fuel_spread(replay: Replay) -> Iterator[Finding]:
    """Packs and sleds with more of a cook group's fuel containers than half, rounded up."""
    for record in replay.records:
        carriers = [(carrier, _containers(replay, carrier)) for carrier in record.carriers]
        riding: Counter[str] = Counter()
        for _, containers in carriers:
            riding.update(containers)
        for carrier, containers in carriers:
            for group_id, count in containers.items():
                most = (riding[group_id] + 1) // 2
                if count > most:
                    yield Finding(
                        RULE,
                        f"{carrier.name} on {trip_words(record.trip)}: {count} of the "
                        f"{riding[group_id]} fuel containers of cook group {group_id} in it, "
                        f"at most {most} may be, {count - most} too many",
                        count - most,
                        "containers",
                        (
                            *trip_where(record.trip),
                            *carrier_where(carrier),
                            ("cook_group", group_id),
                        ),
                    )


def _containers(replay: Replay, carrier: Carrier) -> Counter[str]:
    containers: Counter[str] = Counter()
    for unit_id, count in carrier.counts.items():
        unit = replay.facts.units[unit_id]
        if unit.kind in {UnitKind.FULL, UnitKind.OPEN} and unit.cook_group_id is not None:
            containers[unit.cook_group_id] += count
    return containers
