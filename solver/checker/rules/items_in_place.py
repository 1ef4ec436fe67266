"""Items in place: what belongs at a place stands there, without a gap, while it is needed.

For each such item: fewest units at `up_to` >= count, from the first night of its people there
or beyond, or from their first trip beyond it, until their last trip homeward leaves it. Before
that, one that may not go ahead is each night where its people sleep.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.ledger.times import Time, after_night
from solver.checker.queries.telling import runs
from solver.plan import Finding
from solver.problem import Item, NeedKind

RULE = "items_in_place"


def items_in_place(replay: Replay) -> Iterator[Finding]:
    """Items that are away from their place, or from their people before they get there."""
    for item in replay.facts.problem.gear:
        if item.need.kind is not NeedKind.AT_PLACE:
            continue
        window = replay.facts.needs.window(item)
        course = replay.courses[item.unit_id]
        missing_at: dict[str, list[tuple[int, int]]] = {}
        for night, place_id in replay.facts.needs.nights_before(item, window):
            there = course.at(after_night(night)).get(place_id, 0)
            missing_at.setdefault(place_id, []).append((night.day, item.count - there))
        for place_id, missing in missing_at.items():
            for run in runs(missing):
                yield Finding(
                    RULE,
                    f"{item.unit_id} on the {run.words} at {place_id}: it may not go ahead, "
                    f"{item.count} needed, {run.amount} too few",
                    run.amount,
                    "units",
                    (*run.where, ("place", place_id), ("unit", item.unit_id)),
                )
        if window is not None and item.need.up_to is not None:
            there, since = course.least(item.need.up_to, window.begins, window.ends)
            if there < item.count:
                yield _away(replay, item, item.need.up_to, there, since)


def _away(replay: Replay, item: Item, place_id: str, there: int, since: Time) -> Finding:
    day = since.day or next(t.day for t in replay.facts.timeline.trips if t.moment == since.moment)
    return Finding(
        RULE,
        f"{item.unit_id} on day {day}: it belongs at {place_id} until its people leave, "
        f"{item.count} needed, {there} there, {item.count - there} too few",
        item.count - there,
        "units",
        (("day", day), ("place", place_id), ("unit", item.unit_id)),
    )
