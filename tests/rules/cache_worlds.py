"""Worlds with a cache on the way: the line strip - c1 - c2 with a cache site at c1."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from solver.plan import Plan
from solver.problem import CacheSite, PlaceKind, Problem
from tests.rules.calendar_worlds import alone, on_legs, with_kind
from tests.rules.worlds import Case, plan_of, world

DAYS = "strip-c1-strip strip-c1-c2 c2-c1-c2 c2-c1-strip"
"""A carry to the cache, past it to the camp, a fetch from the camp, and home."""


def with_cache(problem: Problem, site: CacheSite | None, place_id: str = "c1") -> Problem:
    """The problem with what is told of the cache at a place."""
    places = tuple(
        replace(place, cache=site) if place.place_id == place_id else place
        for place in problem.route.places
    )
    return replace(problem, route=replace(problem.route, places=places))


def cache_world(site: CacheSite | None = None, days: str = DAYS) -> Problem:
    """One person's trip with a cache at c1, of which that is told."""
    return with_cache(with_kind(world(days), "c1", PlaceKind.CACHE_SITE), site)


def fetching(problem: Problem, *, on_day: int = 3) -> Plan:
    """Four meals of which two are left in the cache on day 1 and taken on another day."""
    trips: list[Mapping[str, str]] = [{"m1": "g1/meal*2"}, *[{}] * 7]
    trips[{2: 3, 3: 5, 4: 7}[on_day]] = {"m1": "g1/meal*2"}
    return plan_of(problem, *trips, stock={(0, "strip"): "g1/meal*4"})


def plan_case(rule_id: str, name: str, problem: Problem, plan: Plan, *amounts: int) -> Case:
    """A case of a preference or caution on plans of a glacier."""
    finds = tuple((rule_id, amount) for amount in amounts)
    return Case(name, alone(problem, rule_id), plan, finds)


def with_hours(problem: Problem, up: float | None, down: float | None) -> Problem:
    """The problem with these hours between c1 and c2 [h]."""
    return on_legs(problem, {}, {"hours_outbound": up, "hours_homeward": down})
