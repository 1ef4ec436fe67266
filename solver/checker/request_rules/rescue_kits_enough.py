"""Rescue kits enough: a party on a crevassed leg has rescue kit for two packs.

For each party and trip along a leg with crevasse hazard: rescue kits riding >= the number that
lets the two ends of the rope each have one, so that whoever falls does not take all of it along.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.parties import crevassed_parties, party_where, units_riding
from solver.checker.queries.telling import trips_words
from solver.checker.queries.words import counted
from solver.plan import Finding
from solver.problem import Purpose

RULE = "rescue_kits_enough"


def rescue_kits_enough(facts: Facts) -> Iterator[Finding]:
    """For each party, the trips on which all pulleys and slings may fall with one person."""
    needed = facts.problem.rules.whole("least_rescue_kits")
    for party in crevassed_parties(facts):
        riding = {t.index: units_riding(facts, Purpose.RESCUE_KIT, t) for t in party.trips}
        short = [trip for trip in party.trips if riding[trip.index] < needed]
        if not short:
            continue
        worst = min(short, key=lambda trip: riding[trip.index])
        has = riding[worst.index]
        own = "has" if len(party.people) == 1 else "have"
        yield Finding(
            RULE,
            f"{party.words} {own} {counted(has, 'rescue kit')} with them on "
            f"{trips_words(short)}, {needed} needed so that who falls into a "
            "crevasse does not take all of it along",
            needed - has,
            "units",
            party_where(party, worst),
            (
                f"{counted(needed - has, 'rescue kit')} more, worn or with the need for every trip",
                "one rescue kit listed as the two halves that two people carry",
            ),
        )
