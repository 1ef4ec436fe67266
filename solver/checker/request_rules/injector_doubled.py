"""Injector doubled: whoever carries an injector ties in with a guide who carries another.

For each owner of an injector who is not a guide: the injector is with its owner on every trip,
and so is one with a guide of the same rope team; on trips without guides, and for a guide's own,
with any other member of it. What an injector holds, and for whom, is the physician's decision.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.listed_gear import listed_items
from solver.checker.queries.personal import always_with
from solver.checker.queries.words import listed
from solver.plan import Finding
from solver.problem import Person, Purpose

RULE = "injector_doubled"


def injector_doubled(facts: Facts) -> Iterator[Finding]:
    """Owners whose injector is not on them, or who have nobody beside them with another."""
    injectors = listed_items(facts, Purpose.INJECTOR)
    owners = {item.owner_id for item in injectors}
    ready = {item.owner_id for item in injectors if always_with(facts, item)}
    for person in facts.problem.roster:
        if person.person_id not in owners:
            continue
        where = (("person", person.person_id),)
        if person.person_id not in ready:
            yield Finding(
                RULE,
                f"the injector of {person.person_id} need not be with its owner on every trip",
                1,
                "units",
                where,
                ("the injector worn, or with the need for every trip, wherever its owner goes",),
            )
        mates = _who_may_hold_the_other(facts, person)
        if not ready & set(mates):
            guided = facts.problem.is_guided and not person.is_guide
            whom = "a guide" if guided else "another member"
            yield Finding(
                RULE,
                f"nobody who could help {person.person_id} has a second injector on every trip: "
                f"{whom} of rope team {person.rope_team_id} needs one",
                1,
                "units",
                where,
                (
                    (f"an injector of their own for {listed(mates)}",)
                    if len(mates) == 1
                    else (f"an injector of their own for one of {listed(mates)}",)
                    if mates
                    else (f"{whom} in the rope team of {person.person_id}, with an injector",)
                ),
            )


def _who_may_hold_the_other(facts: Facts, person: Person) -> list[str]:
    """Others of the rope team: its guides, or all of them where guides have no part in it."""
    guided = facts.problem.is_guided and not person.is_guide
    return [
        other.person_id
        for other in facts.problem.roster
        if other.rope_team_id == person.rope_team_id
        and other.person_id != person.person_id
        and (other.is_guide or not guided)
    ]
