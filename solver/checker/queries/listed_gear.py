"""What the gear lists for a purpose, wherever it is."""

from __future__ import annotations

from solver.checker.ledger.facts import Facts
from solver.problem import Item, Purpose


def listed_items(facts: Facts, purpose: Purpose) -> tuple[Item, ...]:
    """The items of a purpose, in the order of the gear."""
    return tuple(item for item in facts.problem.gear if item.purpose is purpose)


def is_listed(facts: Facts, purpose: Purpose) -> bool:
    """Whether the gear lists anything of a purpose; missing kit is for rules on the request."""
    return bool(listed_items(facts, purpose))


def units_of(facts: Facts, purpose: Purpose) -> int:
    """How many units of a purpose the gear lists [1]."""
    return sum(item.count for item in listed_items(facts, purpose))


def human_waste_containers(facts: Facts) -> tuple[Item, ...]:
    """The items that take human waste, those of which there are none left out."""
    return tuple(i for i in listed_items(facts, Purpose.HUMAN_WASTE_CONTAINER) if i.count > 0)
