"""Last on rope light: downhill the last of a rope team hauls no heavier sled than the others.

For each rope team on a trip that ends lower than it began, where the last person and another
haul: sled gross of the last <= the lightest sled gross of the others.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.ropes import RopeTeam, rope_teams
from solver.checker.queries.telling import carrier_where, kg, trip_where, trip_words
from solver.plan import Finding
from solver.problem import Trip

RULE = "last_on_rope_light"


def last_on_rope_light(replay: Replay) -> Iterator[Finding]:
    """Rope teams whose last person has a heavier sled behind on the way down than another."""
    route = replay.facts.problem.route
    for record in replay.records:
        trip = record.trip
        if route.place(trip.to_place).elevation_m < route.place(trip.from_place).elevation_m:
            for team in rope_teams(record):
                yield from _judge(trip, team)


def _judge(trip: Trip, team: RopeTeam) -> Iterator[Finding]:
    last = team.last
    others_g = [b.sled_g for b in (team.lead, *team.between) if b.sled is not None]
    if last is None or last.sled is None or not others_g:
        return
    over_g = last.sled_g - min(others_g)
    if over_g > 0:
        yield Finding(
            RULE,
            f"sled {last.sled.sled_id} of {last.person.person_id}, last of rope team "
            f"{team.rope_team_id}, on {trip_words(trip)}: {kg(last.sled_g)}, {kg(over_g)} more "
            "than the lightest of the others",
            over_g,
            "g",
            (*trip_where(trip), *carrier_where(last.on_sled)),
        )
