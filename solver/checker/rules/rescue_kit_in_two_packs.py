"""Rescue kit in two packs: of k >= 2 pieces on a trip, at most k - 1 in one pack or sled.

So it is of all the trip's pieces, and of those of each rope team of two people or more there.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from solver.checker.ledger.replay import Replay
from solver.checker.queries.apart import all_in_one, apart_finding
from solver.checker.queries.holdings import in_hand
from solver.plan import Finding
from solver.problem import NeedKind, Purpose

RULE = "rescue_kit_in_two_packs"


def rescue_kit_in_two_packs(replay: Replay) -> Iterator[Finding]:
    """Packs and sleds that have all the rescue kit of a trip, or of a rope team."""
    yield from all_in_one(replay, RULE, Purpose.RESCUE_KIT, "pieces of rescue kit")
    yield from _all_of_a_team(replay)


def _all_of_a_team(replay: Replay) -> Iterator[Finding]:
    """Those with all of one rope team while other teams have theirs."""
    teams: dict[str, dict[str, int]] = {}
    everything: dict[str, int] = {}
    for item in replay.facts.problem.gear:
        if item.purpose is Purpose.RESCUE_KIT and item.need.kind is not NeedKind.WORN:
            everything[item.unit_id] = 1
            if item.rope_team_id is not None:
                teams.setdefault(item.rope_team_id, {})[item.unit_id] = 1
    for record in replay.records:
        for team, worth in teams.items():
            riding = in_hand(worth, record.counts)
            people = sum(burden.person.rope_team_id == team for burden in record.burdens)
            if min(riding, people) < 2 or riding == in_hand(everything, record.counts):
                continue
            for carrier in record.carriers:
                if in_hand(worth, carrier.counts) == riding:
                    words = f"all {riding} pieces of rescue kit of rope team {team} in it"
                    words += f", at most {riding - 1} may be"
                    finding = apart_finding(RULE, record, carrier, 1, words)
                    yield replace(finding, where=(*finding.where, ("rope_team", team)))
