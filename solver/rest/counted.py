"""What a followed plan and a count make of a problem: so much was taken, so much stands where."""

from __future__ import annotations

from dataclasses import replace

from solver.checker.ledger.facts import read_facts
from solver.checker.standing import standing_at_moment
from solver.plan import Plan
from solver.problem import Change, Problem


def with_counts(problem: Problem, followed: Plan) -> Problem:
    """The problem with as many bags and containers as the followed plan took along."""
    taken: dict[str, int] = {}
    for entry in followed.stock:
        if entry.day == 0:
            for stowed in entry.units:
                taken[stowed.unit_id] = taken.get(stowed.unit_id, 0) + stowed.count
    return replace(
        problem,
        night_sets=tuple(
            replace(one, bag_count=taken.get(one.unit_id, 0)) for one in problem.night_sets
        ),
        cook_groups=tuple(
            replace(
                group,
                containers=tuple(
                    replace(kind, count=taken.get(kind.unit_id, 0)) for kind in group.containers
                ),
            )
            for group in problem.cook_groups
        ),
    )


def without_lost_items(problem: Problem) -> Problem:
    """The problem with the gear that is left: what was lost is asked for no more.

    Rules on what a party must have are asked of the rest.
    """
    history = problem.history
    if history is None:
        return problem
    left = (replace(i, count=i.count - history.lost(i.unit_id)) for i in problem.gear)
    return replace(problem, gear=tuple(item for item in left if item.count > 0))


def with_lost_fuel_burnt(problem: Problem) -> Problem:
    """The problem with open containers that were lost as burnt empty, and the empties as lost.

    The ledger burns what is open first. What was in a lost one must not be burnt again.
    """
    history = problem.history
    if history is None:
        return problem
    facts = read_facts(replace(problem, history=replace(history, changes=())))
    changes = list(history.changes)
    burnt = dict(history.burnt_ml)
    for group_id, burning in facts.burnings.items():
        nights = [m for m in facts.meals if m.cook_group_id == group_id]
        last = nights[max(history.nights - 1, 0)].place_id if nights else ""
        for opened in burning.opened:
            lost = [c for c in changes if c.unit_id == opened.open_id]
            if sum(change.count for change in lost) < 0:
                left_ml = opened.left_ml.get(history.nights, 0)
                burnt[group_id] = burnt.get(group_id, 0) + left_ml
                changes = [c for c in changes if c not in lost]
                changes.append(Change(last, opened.empty_id, -1))
    counted = replace(history, changes=tuple(changes), burnt_ml=tuple(burnt.items()))
    return replace(problem, history=counted)


def with_standing(problem: Problem, followed: Plan) -> Problem:
    """The problem with all that stands where at its moment, by the replay of a plan."""
    if problem.history is None:
        return problem
    standing = standing_at_moment(read_facts(problem), followed)
    return replace(problem, history=replace(problem.history, standing=standing))
