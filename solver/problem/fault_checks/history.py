"""Faults of a history: a moment outside the calendar, places that the route does not have."""

from __future__ import annotations

from collections.abc import Iterator

from solver.errors import ProblemFault
from solver.problem.fault_checks.wording import unknown_id
from solver.problem.problem import Problem


def history_faults(problem: Problem) -> Iterator[ProblemFault]:
    """A moment before the first day or after the last evening, and unknown places and groups."""
    history = problem.history
    if history is None:
        return
    last = len(problem.calendar.days) - 1
    if not 1 <= history.day <= last:
        yield ProblemFault(
            ("history", "day"),
            "out_of_range",
            f"Day {history.day} leaves nothing to plan: the past ends on day 1 to {last}.",
        )
    known = [place.place_id for place in problem.route.places]
    for index, change in enumerate(history.changes):
        if change.place_id not in known:
            where = ("history", "changes", index, "place_id")
            yield unknown_id(where, change.place_id, "place", known)
    groups = [group.cook_group_id for group in problem.cook_groups]
    for index, (group_id, _) in enumerate(history.burnt_ml):
        if group_id not in groups:
            yield unknown_id(("history", "burnt_ml", index), group_id, "cook group", groups)
