"""Party kit complete: every party on a crevassed leg has what a rescue and a storm ask.

For each party and trip along a leg with crevasse hazard: ropes and rescue kits riding >= rope
teams of the party; shovels, shelters, medical kits, communicators and means of navigation
riding >= 1. What is worn rides too.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.parties import Party, crevassed_parties, party_where, units_riding
from solver.checker.queries.telling import trips_words
from solver.checker.queries.words import units_words
from solver.plan import Finding
from solver.problem import Purpose

RULE = "party_kit_complete"

PER_ROPE_TEAM = (Purpose.ROPE, Purpose.RESCUE_KIT)
PER_PARTY = (
    Purpose.SHOVEL,
    Purpose.SHELTER,
    Purpose.MEDICAL_KIT,
    Purpose.COMMUNICATOR,
    Purpose.NAVIGATION,
)


def party_kit_complete(facts: Facts) -> Iterator[Finding]:
    """For each party and purpose, the trips on which too few units ride with it."""
    for party in crevassed_parties(facts):
        for purpose in PER_ROPE_TEAM:
            yield from _missing(facts, party, purpose, party.rope_teams)
        for purpose in PER_PARTY:
            yield from _missing(facts, party, purpose, 1)


def _missing(facts: Facts, party: Party, purpose: Purpose, needed: int) -> Iterator[Finding]:
    riding = {trip.index: units_riding(facts, purpose, trip) for trip in party.trips}
    short = [trip for trip in party.trips if riding[trip.index] < needed]
    if not short:
        return
    worst = min(short, key=lambda trip: riding[trip.index])
    amount = needed - riding[worst.index]
    goes = "travels" if len(party.people) == 1 else "travel"
    yield Finding(
        RULE,
        f"{party.words} {goes} crevassed legs ({trips_words(short)}) with "
        f"{units_words(riding[worst.index], purpose)} sure to be with them, {needed} needed",
        amount,
        "units",
        (*party_where(party, worst), ("purpose", purpose.value)),
        (
            f"{units_words(amount, purpose)} more, worn or needed on every trip of theirs",
            "the need for every trip for what is listed with another need",
        ),
    )
