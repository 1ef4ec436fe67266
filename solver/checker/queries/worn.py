"""What people wear: counted for sure, or as far as anybody may have it on."""

from __future__ import annotations

from collections.abc import Collection

from solver.checker.ledger.facts import Facts
from solver.checker.queries.listed_gear import listed_items
from solver.problem import Item, NeedKind, Purpose


def worn_among(facts: Facts, item: Item, people: Collection[str]) -> int:
    """How many units of something worn are on some people for sure [1].

    Somebody who is not among them may wear one of those that have no owner.
    """
    elsewhere = facts.needs.people_of(item) - set(people)
    if item.owner_id is not None:
        return 0 if elsewhere else item.count
    return max(0, item.count - len(elsewhere))


def worn_by(facts: Facts, item: Item, people: Collection[str]) -> int:
    """How many units of something worn some people may have on them, one of theirs at least [1].

    All its units count as soon as it belongs to one of them, 0 where it is not worn at all.
    """
    if item.need.kind is not NeedKind.WORN or facts.needs.people_of(item).isdisjoint(people):
        return 0
    return item.count


def purpose_worn_by(facts: Facts, purpose: Purpose, people: Collection[str]) -> int:
    """How many units of a purpose some people may have on them [1]."""
    return sum(worn_by(facts, item, people) for item in listed_items(facts, purpose))
