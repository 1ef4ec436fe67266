"""Lead sled light: where there are crevasses, the lead of each rope team hauls a light sled.

For each rope team on a leg whose crevasse hazard is given: the lead's sled gross <=
`lead_sled_percent` of the lead's sled cap times the leg's factor.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.fractions import sled_cap_g
from solver.checker.queries.ropes import rope_teams
from solver.checker.queries.telling import carrier_where, kg, trip_where, trip_words
from solver.plan import Finding
from solver.quantities import share_down

RULE = "lead_sled_light"


def lead_sled_light(replay: Replay) -> Iterator[Finding]:
    """Leads on crevassed legs with sleds near their cap."""
    percent = replay.facts.problem.rules.whole("lead_sled_percent")
    for record in replay.records:
        trip = record.trip
        if trip.leg.crevasse_hazard is None:
            continue
        for team in rope_teams(record):
            lead = team.lead
            if lead.sled is None:
                continue
            limit_g = share_down(amount=sled_cap_g(lead, trip), percent=percent)
            over_g = lead.sled_g - limit_g
            if over_g > 0:
                yield Finding(
                    RULE,
                    f"sled {lead.sled.sled_id} of {lead.person.person_id}, lead of rope team "
                    f"{team.rope_team_id}, on {trip_words(trip)}: {kg(lead.sled_g)}, at most "
                    f"{kg(limit_g)}, {percent} % of the cap, is good for a lead here",
                    over_g,
                    "g",
                    (*trip_where(trip), *carrier_where(lead.on_sled)),
                )
