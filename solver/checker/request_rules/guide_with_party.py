"""Guide with party: on a guided trip every party on a crevassed leg has a guide.

For each party that travels a leg with crevasse hazard: guides >= 1. Trips without any guide on
the roster are not asked.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.parties import crevassed_parties, party_where
from solver.checker.queries.telling import trips_words
from solver.plan import Finding

RULE = "guide_with_party"


def guide_with_party(facts: Facts) -> Iterator[Finding]:
    """For each party without a guide, its trips."""
    if not facts.problem.is_guided:
        return
    for party in crevassed_parties(facts):
        if party.guides:
            continue
        goes, wait = ("travels", "waits") if len(party.people) == 1 else ("travel", "wait")
        yield Finding(
            RULE,
            f"{party.words} {goes} crevassed legs ({trips_words(party.trips)}) without a guide",
            1,
            "guides",
            party_where(party, party.trips[0]),
            (
                "a guide in their rope team",
                "another rope team, with its guide, goes the same way with them",
                f"{party.words} {wait} at {party.trips[0].from_place} for a guide",
            ),
        )
