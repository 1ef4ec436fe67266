"""Communicator at camp: communicators at a camp and worn by its sleepers >= 1, every night.

Documents: youth-programmes, icefield-planning, polar-field-manual.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.ledger.times import after_night
from solver.checker.queries.holdings import held_before, pieces
from solver.checker.queries.listed_gear import is_listed
from solver.checker.queries.telling import runs
from solver.checker.queries.worn import purpose_worn_by
from solver.plan import Finding
from solver.problem import Purpose

RULE = "communicator_at_camp"


def communicator_at_camp(replay: Replay) -> Iterator[Finding]:
    """Nights on which people sleep where nobody could call for help, in runs."""
    facts = replay.facts
    if not is_listed(facts, Purpose.COMMUNICATOR):
        return
    worth = pieces(facts, Purpose.COMMUNICATOR)
    missing: dict[str, list[tuple[int, int]]] = {}
    for night in facts.timeline.nights:
        for place_id in dict.fromkeys(place for _, place in night.sleeps_at):
            there = held_before(replay, worth, place_id, after_night(night))
            worn = purpose_worn_by(facts, Purpose.COMMUNICATOR, night.sleepers_at(place_id))
            missing.setdefault(place_id, []).append((night.day, 1 - there - worn))
    for place_id, lacking in missing.items():
        for run in runs(lacking):
            yield Finding(
                RULE,
                f"{place_id} on the {run.words}: people sleep there without a communicator",
                run.amount,
                "units",
                (*run.where, ("place", place_id)),
            )
