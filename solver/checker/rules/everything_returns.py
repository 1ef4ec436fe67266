"""Everything returns: at the end no unit stands anywhere but where the trip began.

Documents: icefield-planning, polar-waste-annex.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.ledger.times import end_of
from solver.plan import Finding

RULE = "everything_returns"


def everything_returns(replay: Replay) -> Iterator[Finding]:
    """Units left on the mountain, by unit and place."""
    home = replay.facts.problem.start_place
    last_day = len(replay.facts.problem.calendar.days)
    for unit_id, course in replay.courses.items():
        for place_id, count in course.at(end_of(replay.facts.timeline)).items():
            if count and place_id != home:
                yield Finding(
                    RULE,
                    f"{unit_id} at {place_id} after day {last_day}: {count} left behind",
                    count,
                    "units",
                    (("day", last_day), ("place", place_id), ("unit", unit_id)),
                )
