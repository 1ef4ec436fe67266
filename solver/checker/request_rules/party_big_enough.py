"""Party big enough: on a crevassed leg at least three roped people travel together.

For each party and trip along a leg with crevasse hazard: people >= the least for that hazard;
fewer may do where the leader calls the hazard low.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.parties import Party, crevassed_parties, least_people, party_where
from solver.checker.queries.telling import trips_words
from solver.checker.queries.words import counted, listed
from solver.plan import Finding
from solver.problem import Trip

RULE = "party_big_enough"


def party_big_enough(facts: Facts) -> Iterator[Finding]:
    """For each party, the trips on which it is too small to hold and pull out one who falls."""
    for party in crevassed_parties(facts):
        there = len(party.people)
        missing = {t.index: least_people(facts, t.leg.crevasse_hazard) - there for t in party.trips}
        short = [trip for trip in party.trips if missing[trip.index] > 0]
        if not short:
            continue
        worst = max(short, key=lambda trip: missing[trip.index])
        hazard, amount = worst.leg.crevasse_hazard, missing[worst.index]
        alone = "goes alone" if there == 1 else "go alone"
        yield Finding(
            RULE,
            f"{party.words} {alone} over crevassed legs ({trips_words(short)}): "
            f"{counted(there, 'roped person') if there == 1 else f'{there} roped people'} where "
            f"the crevasse hazard is {hazard.value if hazard else 'not given'}, at least "
            f"{there + amount} needed",
            amount,
            "people",
            party_where(party, worst),
            _instead(facts, party, worst, amount),
        )


def _instead(facts: Facts, party: Party, trip: Trip, amount: int) -> tuple[str, ...]:
    """What a leader could do: more people; if there are others, go with them or wait for them."""
    wait = "waits" if len(party.people) == 1 else "wait"
    more = "one more person" if amount == 1 else f"{amount} more people"
    rope_in = f"{more} roped in with {party.words} on these trips"
    if len(party.people) == len(facts.problem.roster):
        return (rope_in,)
    return (
        rope_in,
        *_teams_that_could_join(facts, party, trip),
        f"everybody who is at {trip.from_place} goes to {trip.to_place} together",
        f"{party.words} {wait} at {trip.from_place} until a party that is big enough goes",
    )


def _teams_that_could_join(facts: Facts, party: Party, trip: Trip) -> Iterator[str]:
    """Other rope teams that begin the day where this party does."""
    visits = facts.problem.calendar.days[trip.day - 1].visits
    own = {person.rope_team_id for person in party.people}
    begins = next(v.places[0] for v in visits if own & set(v.rope_team_ids))
    near = [
        team
        for visit in visits
        if visit.places[0] == begins
        for team in visit.rope_team_ids
        if team not in own
    ]
    if near:
        word = "rope team" if len(near) == 1 else "one of the rope teams"
        yield f"{word} {listed(near)} goes with them on day {trip.day}"
