"""Worlds about heights, hours and slopes: the line strip - c1 - c2 - c3 with other figures."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from solver.checker import check_request
from solver.plan import Finding
from solver.problem import PlaceKind, Problem
from tests.rules.worlds import RequestCase, asked_alone, on_glacier, world


def alone(problem: Problem, rule_id: str) -> Problem:
    """The problem on a glacier, of whose rules only one is asked."""
    return asked_alone(on_glacier(problem), rule_id)


def numbered(problem: Problem, **numbers: float) -> Problem:
    """The problem with some numbers of rules given in the request."""
    stated = (*problem.rules.numbers, *numbers.items())
    return replace(problem, rules=replace(problem.rules, numbers=stated))


def at_elevations(problem: Problem, *heights_m: int) -> Problem:
    """The problem with its places at these heights, in order [m]."""
    places = tuple(
        replace(place, elevation_m=height)
        for place, height in zip(problem.route.places, heights_m, strict=True)
    )
    return replace(problem, route=replace(problem.route, places=places))


def on_legs(problem: Problem, *changes: dict[str, Any]) -> Problem:
    """The problem with figures of its legs changed, leg by leg from the strip up."""
    legs = tuple(
        replace(leg, **change) for leg, change in zip(problem.route.legs, changes, strict=True)
    )
    return replace(problem, route=replace(problem.route, legs=legs))


def with_kind(problem: Problem, place_id: str, kind: PlaceKind) -> Problem:
    """The problem with a place of another kind."""
    places = tuple(
        replace(place, kind=kind) if place.place_id == place_id else place
        for place in problem.route.places
    )
    return replace(problem, route=replace(problem.route, places=places))


def told(problem: Problem, rule_id: str) -> list[Finding]:
    """The findings of one rule on the request, forbidden or remarked."""
    report = check_request(problem)
    both = [*report.findings, *(remark.finding for remark in report.remarks)]
    return [finding for finding in both if finding.rule_id == rule_id]


def hard_case(
    rule_id: str, name: str, problem: Problem, *amounts: int, solvable: bool | None = None
) -> RequestCase:
    """A case of a hard rule: whatever it finds leaves no plan, unless told otherwise."""
    return RequestCase(
        name,
        alone(problem, rule_id),
        tuple((rule_id, amount) for amount in amounts),
        solvable=not amounts if solvable is None else solvable,
    )


def soft_case(rule_id: str, name: str, problem: Problem, *amounts: int) -> RequestCase:
    """A case of a preference or caution, which forbids no plan."""
    return hard_case(rule_id, name, problem, *amounts, solvable=True)


def climb(days: str, *heights_m: int) -> Problem:
    """One person's climb over places at these heights [m]."""
    return at_elevations(world(days), *heights_m)
