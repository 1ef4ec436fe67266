"""What stands where at the moment of a history, by the replay of the plan that was followed."""

from __future__ import annotations

from solver.checker.ledger.facts import Facts
from solver.checker.ledger.replay import replay
from solver.checker.ledger.times import moment_of
from solver.plan import Plan
from solver.problem import Standing


def standing_at_moment(facts: Facts, followed: Plan) -> tuple[Standing, ...]:
    """Every unit that stands anywhere once the past is over, by id and then by place.

    Empty without a history. Trips that are over count only, whatever else the plan says.
    """
    history = facts.problem.history
    if history is None:
        return ()
    now = moment_of(history, facts.timeline)
    replayed = replay(facts, followed)
    return tuple(
        Standing(place_id, unit_id, count)
        for unit_id, course in replayed.courses.items()
        if unit_id not in facts.worn
        for place_id, count in sorted(course.at(now).items())
        if count > 0
    )
