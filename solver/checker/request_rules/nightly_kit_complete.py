"""Nightly kit complete: everybody has what each night and each travel day ask.

For each person whose clothing is given: a sleeping bag, a pad and a dry layer that are where the
person sleeps every night, and shell clothing, a warm jacket, mitts and eye protection that are
with the person on every trip. Shared units serve those who have none of their own, one each.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.personal import (
    lists_clothing,
    nights_of,
    trips_of,
    with_owner_at,
    with_owner_on,
)
from solver.checker.queries.words import WORDS, listed
from solver.plan import Finding
from solver.problem import Item, Person, Purpose

RULE = "nightly_kit_complete"

EACH_NIGHT = (Purpose.SLEEPING_BAG, Purpose.SLEEPING_PAD, Purpose.DRY_LAYER)
EACH_TRAVEL_DAY = (
    Purpose.SHELL_CLOTHING,
    Purpose.WARM_JACKET,
    Purpose.MITTS,
    Purpose.EYE_PROTECTION,
)


def nightly_kit_complete(facts: Facts) -> Iterator[Finding]:
    """For each person what is missing, or may be somewhere else when it is needed."""
    people = [p for p in facts.problem.roster if lists_clothing(facts, p.person_id)]
    lacking: dict[str, list[str]] = {person.person_id: [] for person in people}
    for purpose in (*EACH_NIGHT, *EACH_TRAVEL_DAY):
        shared = {
            item.unit_id: item.count
            for item in facts.problem.gear
            if item.owner_id is None and item.purpose is purpose
        }
        for person in people:
            if not _has(facts, person, purpose, shared):
                lacking[person.person_id].append(WORDS[purpose])
    for person_id, words in lacking.items():
        if words:
            yield Finding(
                RULE,
                f"{person_id} has no {listed(words)} that is sure to be there: sleeping bag, pad "
                "and dry layer are needed every night, shell clothing, warm jacket, mitts and eye "
                "protection every travel day",
                len(words),
                "units",
                (("person", person_id),),
                (
                    f"{listed(words)} of {person_id} in the gear",
                    "each with the need for every night or every trip and no place where it ends",
                ),
            )


def _has(facts: Facts, person: Person, purpose: Purpose, shared: dict[str, int]) -> bool:
    """Whether a person has a thing for a purpose; takes a shared unit where there is none."""
    for item in facts.problem.gear:
        if item.purpose is not purpose or person.person_id not in facts.needs.people_of(item):
            continue
        if item.owner_id is None and not shared[item.unit_id]:
            continue
        if _serves(facts, item, person, purpose):
            if item.owner_id is None:
                shared[item.unit_id] -= 1
            return True
    return False


def _serves(facts: Facts, item: Item, person: Person, purpose: Purpose) -> bool:
    if purpose in EACH_NIGHT:
        return all(with_owner_at(facts, item, p) for p in nights_of(facts, person.person_id))
    return all(with_owner_on(facts, item, t) for t in trips_of(facts, person.person_id))
