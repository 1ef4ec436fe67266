"""How high people sleep and how high they were by day, once for those who do the same."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from solver.calculators.sleeping_elevation import RuleName, sleeping_rule
from solver.checker.ledger.facts import Facts
from solver.checker.queries.words import people_words
from solver.problem import Problem, SleepingRule

_NAMES: dict[SleepingRule, RuleName] = {
    SleepingRule.WMS: "wms",
    SleepingRule.CDC: "cdc",
    SleepingRule.UIAA: "uiaa",
    SleepingRule.CAUTIOUS: "cautious",
}


@dataclass(frozen=True, slots=True)
class Sleepers:
    """People with the same nights: where and how high they sleep, night by night [m].

    `reached_m` is the highest point of the day before each night.
    """

    person_ids: tuple[str, ...]
    places: tuple[str, ...]
    slept_m: tuple[int, ...]
    reached_m: tuple[int, ...]

    @property
    def who(self) -> str:
        """The people in words."""
        return people_words(self.person_ids)


@dataclass(frozen=True, slots=True)
class Rise:
    """A night that is higher than every night before it, and the night before.

    `stayed` is how many nights in a row were slept as high as the lower one, or higher;
    `reached_m` the highest point of all days before the day of the move.
    """

    night: int
    day: int
    from_place: str
    to_place: str
    from_m: int
    to_m: int
    stayed: int
    reached_m: int


def threshold_m(problem: Problem) -> float:
    """The elevation from which sleeping elevations are judged: given, else the named rule's [m]."""
    return number(problem, "sleeping_threshold_m", "threshold_m")


def number(problem: Problem, name: str, of_named_rule: str) -> float:
    """A number given in the request, else the named sleeping rule's, else the rulebook's.

    A named rule that has no limit of the kind leaves the rulebook's.
    """
    wanted = problem.conditions.sleeping_rule
    if wanted is not None and name not in dict(problem.rules.numbers):
        own = float(getattr(sleeping_rule(name=_NAMES[wanted]), of_named_rule))
        if math.isfinite(own):
            return own
    return problem.rules.number(name)


def read_sleepers(facts: Facts) -> tuple[Sleepers, ...]:
    """All people, those who sleep and go equally high together, in roster order."""
    metres = {place.place_id: place.elevation_m for place in facts.problem.route.places}
    highest: dict[tuple[int, str], int] = {}
    for trip in facts.timeline.trips:
        top_m = max(metres[trip.from_place], metres[trip.to_place])
        for person_id in trip.person_ids:
            key = (trip.day, person_id)
            highest[key] = max(top_m, highest.get(key, top_m))
    alike: dict[tuple[tuple[str, ...], tuple[int, ...]], list[str]] = {}
    for person in facts.problem.roster:
        who = person.person_id
        places = tuple(night.place_of(who) for night in facts.timeline.nights)
        reached = tuple(
            highest.get((night.day, who), metres[night.place_of(who)])
            for night in facts.timeline.nights
        )
        alike.setdefault((places, reached), []).append(who)
    return tuple(
        Sleepers(tuple(people), places, tuple(metres[p] for p in places), reached)
        for (places, reached), people in alike.items()
        if places
    )


def rises(facts: Facts, sleepers: Sleepers) -> Iterator[Rise]:
    """Every night above the threshold that is higher than all before it, but the first."""
    slept_m = sleepers.slept_m
    for night in range(1, len(slept_m)):
        if slept_m[night] <= max(threshold_m(facts.problem), *slept_m[:night]):
            continue
        stayed = 0
        while stayed < night and slept_m[night - 1 - stayed] >= slept_m[night - 1]:
            stayed += 1
        yield Rise(
            night=night,
            day=facts.timeline.nights[night].day,
            from_place=sleepers.places[night - 1],
            to_place=sleepers.places[night],
            from_m=slept_m[night - 1],
            to_m=slept_m[night],
            stayed=stayed,
            reached_m=max(sleepers.reached_m[:night]),
        )
