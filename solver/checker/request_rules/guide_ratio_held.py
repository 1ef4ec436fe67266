"""Guide ratio held: no guide looks after more clients than permit, contract or law allow.

For each guided party that travels a leg with crevasse hazard: clients <= clients per guide x
guides. A party without any guide is another rule's matter.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.parties import crevassed_parties, party_where
from solver.checker.queries.telling import trips_words
from solver.checker.queries.words import counted
from solver.plan import Finding

RULE = "guide_ratio_held"


def guide_ratio_held(facts: Facts) -> Iterator[Finding]:
    """For each party with too many clients for its guides, how many are too many."""
    most = facts.problem.rules.whole("clients_per_guide")
    for party in crevassed_parties(facts):
        clients = len(party.people) - party.guides
        over = clients - most * party.guides
        if not party.guides or over <= 0:
            continue
        yield Finding(
            RULE,
            f"{counted(party.guides, 'guide')} with {counted(clients, 'client')} on crevassed "
            f"legs ({trips_words(party.trips)}): at most {counted(most, 'client')} per guide, "
            f"{over} too many",
            over,
            "people",
            party_where(party, party.trips[0]),
            (
                "one more guide in the party",
                f"{counted(over, 'client')} fewer on these trips",
                "another number of clients per guide, where permit, contract and law allow it",
            ),
        )
