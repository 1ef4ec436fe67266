"""The steered preferences on loads as soft constraints, trip by trip."""

from __future__ import annotations

from collections.abc import Iterator

from solver.model.formulation.frame import Frame
from solver.model.goals.equipment_constraints import equipment_constraints
from solver.model.goals.party import movers_of
from solver.model.goals.sled_constraints import sled_constraints
from solver.model.goals.soft_constraint import SoftConstraint, SoftConstraints
from solver.model.instance.world import World
from solver.problem import Trip


def soft_constraints(frame: Frame) -> SoftConstraints:
    """For each trip the preferences on its loads that the request asks."""
    return tuple(
        tuple(
            constraint
            for constraint in _of_trip(frame.world, trip)
            if frame.world.problem.asks(constraint.rule_id)
            and not frame.world.problem.is_over(trip.day)
        )
        for trip in frame.world.timeline.trips
    )


def _of_trip(world: World, trip: Trip) -> Iterator[SoftConstraint]:
    party = movers_of(world, trip)
    yield from sled_constraints(world, trip, party)
    yield from equipment_constraints(world, trip, party)
