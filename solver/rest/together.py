"""The night of the evening on which a party divides: everybody still sleeps and eats together."""

from __future__ import annotations

from dataclasses import replace

from solver.checker import check_plan, check_request
from solver.plan import Finding, Plan
from solver.problem import Calendar, History, Problem, read_timeline
from solver.rest.counted import (
    with_counts,
    with_lost_fuel_burnt,
    with_standing,
    without_lost_items,
)
from solver.rest.menus import eat_what_is_left

_ASKED_TONIGHT = frozenset(
    {
        "fuel_held",
        "night_sets_held",
        "nightly_items_held",
        "shelter_for_all",
    }
)
"""Rules without which the night cannot be spent together."""


def after_their_last_night(problem: Problem, followed: Plan) -> Problem:
    """The problem of an evening once its night is over, which all spend as they were.

    What was counted in the evening comes before that night. Where food, fuel, shelter or what is
    needed at night is not there for all, the problem stays as it is: each party has to have its
    own then, and the rules are asked of that night.
    """
    history = problem.history
    if history is None or history.after_night:
        return problem
    evening = with_lost_fuel_burnt(with_counts(problem, followed))
    fed = _with_supper(evening, followed, history.day)
    report = check_plan(check_request(without_lost_items(fed)), followed)
    if any(_is_of(finding, history.day) for finding in report.findings):
        return problem
    return replace(fed, history=History(history.day, after_night=True, before=fed.history))


def _with_supper(evening: Problem, followed: Plan, day: int) -> Problem:
    """The problem with the sets that its cook groups eat that night, out of what is there."""
    tonight = replace(
        with_standing(without_lost_items(evening), followed),
        calendar=Calendar(evening.calendar.days[: day + 1]),
        reserves=(),
    )
    eats = eat_what_is_left(tonight, read_timeline(tonight))
    chosen = {group.cook_group_id: group.set_on for group in eats.cook_groups}
    return replace(
        evening,
        cook_groups=tuple(
            replace(group, set_on=chosen[group.cook_group_id]) for group in evening.cook_groups
        ),
    )


def _is_of(finding: Finding, day: int) -> bool:
    """Whether a finding says that a night cannot be spent."""
    where = dict(finding.where)
    first = where.get("day", 0)
    last = where.get("last_day", first)
    return finding.rule_id in _ASKED_TONIGHT and int(first) <= day <= int(last)
