"""The whole model from a problem to an outcome: a plan, a refusal, or nothing in time."""

from dataclasses import replace

from solver.checker import check
from solver.model import solve
from solver.outcome import Infeasible, Limits, Solved
from solver.progress import Watch
from tests.problem.small_world import small_world

LIMITS = Limits(wall_seconds=20.0, workers=1)


def solved(problem, **more):
    """The outcome within the limits."""
    return solve(problem, LIMITS, Watch(LIMITS.wall_seconds), **more)


def test_a_world_without_faults_gets_a_plan_that_keeps_every_rule():
    """The plan of the small world passes the check, and no goal is below its lower bound."""
    world = small_world()
    outcome = solved(world)
    assert isinstance(outcome, Solved)
    assert check(world, outcome.plan).findings == ()
    assert all(goal.value >= goal.bound for goal in outcome.goals)
    assert outcome.record.variables > 0


def test_a_plan_to_begin_from_is_never_made_worse():
    """Begun from its own plan, the search ends with a peak that is no higher."""
    world = small_world()
    first = solved(world)
    again = solved(world, start=first.plan)
    assert again.goals[0].value <= first.goals[0].value


def test_packs_that_are_too_small_are_refused_with_conflicts():
    """People who may carry 1 kg have no plan, and the conflicts name rules."""
    world = small_world()
    weak = tuple(
        replace(person, caps=replace(person.caps, pack_g=1_000)) for person in world.roster
    )
    outcome = solved(replace(world, roster=weak))
    assert isinstance(outcome, Infeasible)
    assert outcome.conflicts
