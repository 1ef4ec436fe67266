"""Goes no further: nothing is taken beyond the place that it goes up to.

For each item with such a place: units at every place beyond it, at any time, = 0. One finding
an item and place, with the most that ever stand there.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.plan import Finding
from solver.problem import NeedKind

RULE = "goes_no_further"


def goes_no_further(replay: Replay) -> Iterator[Finding]:
    """Items that are taken too far, each with how many and the place."""
    needs = replay.facts.needs
    for item in replay.facts.problem.gear:
        if item.need.up_to is None or item.need.kind is NeedKind.WORN:
            continue
        most: dict[str, int] = {}
        for counts in replay.courses[item.unit_id].counts:
            for place_id, count in counts.items():
                if needs.too_far(item, place_id):
                    most[place_id] = max(most.get(place_id, 0), count)
        for place_id, count in most.items():
            if count:
                yield Finding(
                    RULE,
                    f"{item.unit_id} goes no further than {item.need.up_to}, but {count} are "
                    f"taken to {place_id}",
                    count,
                    "units",
                    (("place", place_id), ("unit", item.unit_id)),
                )
