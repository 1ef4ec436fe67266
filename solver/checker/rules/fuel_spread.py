"""Fuel spread: of k full and open containers of a cook group on a trip, 2 x in one <= k + 1.

The same holds of all shared fuel among the gear together, which is nobody's kitchen's.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from solver.checker.ledger.loads import Carrier
from solver.checker.ledger.replay import Replay
from solver.checker.ledger.units import UnitKind
from solver.checker.queries.telling import Where, carrier_where, trip_where, trip_words
from solver.plan import Finding

RULE = "fuel_spread"


def fuel_spread(replay: Replay) -> Iterator[Finding]:
    """Packs and sleds with more of a cook group's fuel containers than half, rounded up."""
    for record in replay.records:
        carriers = [(carrier, _containers(replay, carrier)) for carrier in record.carriers]
        riding: Counter[str | None] = Counter()
        for _, containers in carriers:
            riding.update(containers)
        for carrier, containers in carriers:
            for group_id, count in containers.items():
                most = (riding[group_id] + 1) // 2
                if count > most:
                    whose = "in the gear"
                    about: Where = ()
                    if group_id is not None:
                        whose, about = f"of cook group {group_id}", (("cook_group", group_id),)
                    yield Finding(
                        RULE,
                        f"{carrier.name} on {trip_words(record.trip)}: {count} of the "
                        f"{riding[group_id]} fuel containers {whose} in it, "
                        f"at most {most} may be, {count - most} too many",
                        count - most,
                        "containers",
                        (*trip_where(record.trip), *carrier_where(carrier), *about),
                    )


def _containers(replay: Replay, carrier: Carrier) -> Counter[str | None]:
    """Containers in a pack or sled by cook group; None are those among the gear."""
    containers: Counter[str | None] = Counter()
    for unit_id, count in carrier.counts.items():
        unit = replay.facts.units[unit_id]
        if unit.kind in {UnitKind.FULL, UnitKind.OPEN} and unit.cook_group_id is not None:
            containers[unit.cook_group_id] += count
        elif unit.is_gear_fuel and unit.item is not None and unit.item.owner_id is None:
            containers[None] += count
    return containers
