"""Team kit in team: a rope team's ropes, rescue kit and medical kit are with its own people.

Units of such an item in the packs and sleds of anybody of another rope team = 0, whatever they
weigh there.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.telling import carrier_where, trip_where, trip_words
from solver.plan import Finding
from solver.problem import Purpose

RULE = "team_kit_in_team"


def team_kit_in_team(replay: Replay) -> Iterator[Finding]:
    """Ropes and kits that would be missing where their team is."""
    team_of = {p.person_id: p.rope_team_id for p in replay.facts.problem.everybody}
    kit = {
        item.unit_id: item.rope_team_id
        for item in replay.facts.problem.gear
        if item.rope_team_id is not None
        and item.purpose in (Purpose.ROPE, Purpose.RESCUE_KIT, Purpose.MEDICAL_KIT)
    }
    for record in replay.records:
        for carrier in record.carriers:
            for unit_id in carrier.counts.keys() & kit.keys():
                team = kit[unit_id]
                if team_of.get(carrier.person_id) == team:
                    continue
                yield Finding(
                    RULE,
                    f"{carrier.name} on {trip_words(record.trip)}: {carrier.counts[unit_id]} "
                    f"{unit_id} in it, which is kit of rope team {team}",
                    carrier.counts[unit_id],
                    "units",
                    (
                        *trip_where(record.trip),
                        *carrier_where(carrier),
                        ("unit", unit_id),
                        ("rope_team", str(team)),
                    ),
                    (f"{unit_id} with somebody of rope team {team}",),
                )
