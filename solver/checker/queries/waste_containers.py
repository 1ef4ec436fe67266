"""The containers for human waste that the gear lists."""

from __future__ import annotations

from solver.checker.ledger.facts import Facts
from solver.problem import Item, Purpose


def waste_containers(facts: Facts) -> tuple[Item, ...]:
    """Items of the gear that take human waste."""
    return tuple(
        i for i in facts.problem.gear if i.purpose is Purpose.WASTE_CONTAINER and i.count > 0
    )
