"""Facts and replays of the tiny worlds of the rule tests, for tests of one module at a time."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from solver.checker.ledger.facts import Facts, read_facts
from solver.checker.ledger.replay import Replay, replay
from solver.problem import Container, CookGroup, NightSet, Problem
from tests.rules.worlds import plan_of, world

NIGHT_OUT = "strip-c1 c1-strip"
"""A night at c1, a thousand metres above the strip."""


def facts_of(days: str = NIGHT_OUT, **changes: Any) -> Facts:
    """The facts of a tiny world."""
    return read_facts(world(days, **changes))


def replay_of(problem: Problem, *loads: Mapping[str, str], **more: Any) -> Replay:
    """The replay of a plan that is written as in the tests of rules."""
    return replay(read_facts(problem), plan_of(problem, *loads, **more))


def burning(
    fuel_ml: int = 100, *, content_ml: int = 150, count: int | None = 2, days: str = NIGHT_OUT
) -> Problem:
    """One person who burns so much a night from cans of such a content, of 100 g and 500 mL."""
    places = [place for place in ("strip", "c1", "c2") if place in days]
    can = Container("can", "g1", content_ml, tare_g=100, volume_ml=500, count=count)
    group = CookGroup("g1", tuple((place, "meal") for place in places), (can,))
    meal = NightSet("meal", "g1", 500, 50, 0, 1_000, fuel_ml, bag_count=3)
    return world(days, groups=(group,), night_sets=(meal,))
