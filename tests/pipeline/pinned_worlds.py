"""Tiny worlds with loads made by hand: where a plan might have them, and where none would."""

from __future__ import annotations

import random
from dataclasses import replace

from solver.problem import Pin, Problem, Timeline, read_timeline
from tests.pipeline.tiny_worlds import tiny_world
from tests.pipeline.unit_stories import Stories


def pinned_world(seed: int) -> Problem:
    """A tiny world with one to three pins of things that exist, on trips and sleds that exist."""
    chance = random.Random(f"pins {seed}")
    problem = tiny_world(seed)
    timeline = read_timeline(problem)
    kinds = _kinds(problem, timeline)
    hauled = {sled.hauler_id: sled.sled_id for sled in problem.sleds}
    pins: dict[tuple[str, int, int, str, bool], Pin] = {}
    for _ in range(chance.choice((1, 1, 1, 2, 3))):
        trip = chance.choice(timeline.trips)
        person_id = chance.choice(trip.person_ids)
        may_haul = hauled.get(person_id) in trip.sled_ids
        pin = Pin(
            unit_id=chance.choice([u for u, owner in kinds if owner in (None, person_id)]),
            day=trip.day,
            step=trip.step,
            person_id=person_id,
            on_sled=may_haul and chance.random() < 0.5,
            count=chance.choice((1, 1, 2)),
        )
        pins[pin.unit_id, pin.day, pin.step, pin.person_id, pin.on_sled] = pin
    return replace(problem, pins=tuple(pins.values()))


def _kinds(problem: Problem, timeline: Timeline) -> list[tuple[str, str | None]]:
    """Things, bags and full containers that the world has, each with its owner."""
    owners = {item.unit_id: item.owner_id for item in problem.gear}
    named = {night_set.unit_id for night_set in problem.night_sets} | owners.keys()
    named |= {one.unit_id for group in problem.cook_groups for one in group.containers}
    there = sorted(named & Stories(problem, timeline).kinds.keys())
    return [(unit_id, owners.get(unit_id)) for unit_id in there]
