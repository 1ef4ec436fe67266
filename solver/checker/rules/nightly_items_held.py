"""Nightly items held: of what is needed every night or trip, all are where its people sleep.

For each item and night: units at the place >= count, the place being where its people sleep,
or `up_to` while they are beyond it.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.ledger.times import after_night
from solver.checker.queries.telling import runs
from solver.plan import Finding
from solver.problem import NeedKind

RULE = "nightly_items_held"


def nightly_items_held(replay: Replay) -> Iterator[Finding]:
    """Items that are not where their people sleep, one finding for each run of nights."""
    for item in replay.facts.problem.gear:
        if item.need.kind not in {NeedKind.EVERY_NIGHT, NeedKind.EVERY_TRIP}:
            continue
        course = replay.courses[item.unit_id]
        missing_at: dict[str, list[tuple[int, int]]] = {}
        for night in replay.facts.timeline.nights:
            place_id = replay.facts.needs.night_place(item, night)
            if place_id is not None:
                there = course.at(after_night(night)).get(place_id, 0)
                missing_at.setdefault(place_id, []).append((night.day, item.count - there))
        for place_id, missing in missing_at.items():
            for run in runs(missing):
                yield Finding(
                    RULE,
                    f"{item.unit_id} on the {run.words} at {place_id}: {item.count} needed, "
                    f"{item.count - run.amount} there, {run.amount} too few",
                    run.amount,
                    "units",
                    (*run.where, ("place", place_id), ("unit", item.unit_id)),
                )
