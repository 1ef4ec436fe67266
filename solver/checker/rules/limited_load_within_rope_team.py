"""Limited load within rope team: what somebody is spared rides with their rope team first.

On each trip of several rope teams, for each team with somebody who has a load limit and others
who have none: largest load fraction of those others, in whole per cent, >= the largest of the
people without a limit in the other teams.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from solver.checker.ledger.loads import Burden, TripRecord
from solver.checker.ledger.replay import Replay
from solver.checker.queries.fractions import load_fraction, whole_percent
from solver.checker.queries.telling import trip_where, trip_words
from solver.plan import Finding
from solver.problem import Problem

RULE = "limited_load_within_rope_team"


def limited_load_within_rope_team(replay: Replay) -> Iterator[Finding]:
    """Rope teams that let other teams carry more while one of their own is spared."""
    for record in replay.records:
        spared: dict[str, Burden] = {}
        for burden in record.burdens:
            if burden.person.load_limit_g is not None:
                spared.setdefault(burden.person.rope_team_id, burden)
        able = [b for b in record.burdens if b.person.load_limit_g is None]
        for team_id, burden in spared.items():
            mates = [b for b in able if b.person.rope_team_id == team_id]
            others = [b for b in able if b.person.rope_team_id != team_id]
            if mates and others:
                yield from _judge(replay.facts.problem, record, burden, mates, others)


def _judge(
    problem: Problem,
    record: TripRecord,
    spared: Burden,
    mates: Sequence[Burden],
    others: Sequence[Burden],
) -> Iterator[Finding]:
    ours, theirs = (
        max(whole_percent(load_fraction(problem, burden, record.trip)) for burden in people)
        for people in (mates, others)
    )
    if theirs > ours:
        person = spared.person
        yield Finding(
            RULE,
            f"{trip_words(record.trip)}: the rope team of {person.person_id}, who is spared, "
            f"carries up to {ours} % of its caps, others up to {theirs} %",
            theirs - ours,
            "%",
            (
                *trip_where(record.trip),
                ("person", person.person_id),
                ("rope_team", person.rope_team_id),
            ),
        )
