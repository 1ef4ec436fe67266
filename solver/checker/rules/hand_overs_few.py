"""Hand overs few: from one day to the next, not many things change to another person's load.

For each person and day: units taken over in swaps since an earlier day <= `most_hand_overs`.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.swaps import swaps
from solver.plan import Finding

RULE = "hand_overs_few"


def hand_overs_few(replay: Replay) -> Iterator[Finding]:
    """People who begin a day with much that others carried the day before."""
    most = replay.facts.problem.rules.whole("most_hand_overs")
    taken: dict[tuple[int, str], int] = {}
    for one in swaps(replay):
        day = one.record.trip.day
        for person_id, units in one.taken if one.since_day < day else ():
            taken[day, person_id] = taken.get((day, person_id), 0) + units
    for (day, person_id), units in taken.items():
        if units > most:
            yield Finding(
                RULE,
                f"{person_id} takes over {units} units on day {day} that others carried on the "
                f"days before, at most {most}",
                units - most,
                "units",
                (("day", day), ("person", person_id)),
            )
