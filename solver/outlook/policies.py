"""A plan as storms meet it: its calendar, its spare days and its reserves as a policy for odds.

Each day is a step: where a cook group slept, and the other places that it visits. Days without
travel after the first trip and before the last are spare, as `weather_days_enough` counts them.
The summit may be late by the spare days before it. Storm reserves of one place add up. A policy
follows one cook group; the odds of a plan are those of the group that holds least often.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import pairwise

from solver.outlook.odds import Odds, Policy, Reserve, Step, difference, odds
from solver.outlook.storms import StormChance
from solver.problem import CookGroup, PlaceKind, Problem, ReserveKind

CALM = StormChance(share=0.0, mean_days=1.0)
"""The weather of a place for which no chance is given."""


@dataclass(frozen=True, slots=True)
class ReserveWorth:
    """How much likelier everything holds with one more night at a place, and its error [1]."""

    place_id: str
    gain: float
    standard_error: float


def policy_of(
    problem: Problem,
    group: CookGroup,
    loss_chances: Mapping[str, float] | None = None,
    spoilt_chances: Mapping[str, float] | None = None,
) -> Policy:
    """The policy of a cook group.

    Reserves are lost and single night sets spoilt with the chances given by place [1].

    Raises ValueError for a group without members.
    """
    members = problem.members(group.cook_group_id)
    if not members:
        raise ValueError(f"cook group {group.cook_group_id} has no members")
    number = {place.place_id: n for n, place in enumerate(problem.route.places)}
    visits = [day.visit_of(members[0].rope_team_id).places for day in problem.calendar.days]
    travels = [day for day, places in enumerate(visits) if len(places) > 1]
    spare = [
        len(places) == 1 and bool(travels) and travels[0] < day < travels[-1]
        for day, places in enumerate(visits)
    ]
    steps = tuple(
        Step(
            number[places[0]],
            tuple(number[p] for p in places[1:]),
            is_spare,
            tuple(
                problem.route.legs.index(problem.route.leg_between(a, b))
                for a, b in pairwise(places)
            ),
        )
        for places, is_spare in zip(visits, spare, strict=True)
    )
    slept = Counter(number[places[-1]] for places in visits[:-1])
    tops = {p.place_id for p in problem.route.places if p.kind is PlaceKind.SUMMIT}
    summit = next((day for day, places in enumerate(visits) if tops & set(places)), None)
    return Policy(
        steps=steps,
        reserves=tuple(
            replace(
                one,
                people=len(members),
                planned_sets=len(members) * slept[one.place],
                spoilt_chance=(spoilt_chances or {}).get(
                    problem.route.places[one.place].place_id, 0.0
                ),
            )
            for one in _reserves(problem, group, number, loss_chances or {})
        ),
        summit_step=summit,
        spare_days=sum(spare[:summit]) if summit is not None else 0,
    )


def _reserves(
    problem: Problem, group: CookGroup, number: Mapping[str, int], losses: Mapping[str, float]
) -> tuple[Reserve, ...]:
    """The storm reserve of every place where the group sleeps, 0 nights where it has none."""
    nights = {place_id: 0 for place_id, _ in group.set_at}
    for one in problem.reserves:
        is_own = one.cook_group_id == group.cook_group_id and one.kind is ReserveKind.STORM
        if is_own and one.place_id in nights:
            nights[one.place_id] += one.nights
    return tuple(
        Reserve(number[place_id], held, held, losses.get(place_id, 0.0), 0)
        for place_id, held in nights.items()
    )


def odds_of(
    problem: Problem,
    policy: Policy,
    chances: Mapping[str, StormChance],
    *,
    scenarios: int,
    seed: int,
    slow: Mapping[str, float] | None = None,
) -> Odds:
    """The odds of a policy under the storms given by place; other places are calm.

    `slow` are the chances by leg id that nobody gets over it on a day [1].

    A party that is late by more than twice its calendar counts as having failed.
    """
    weather = tuple(chances.get(place.place_id, CALM) for place in problem.route.places)
    barred = tuple((slow or {}).get(leg.leg_id, 0.0) for leg in problem.route.legs)
    dates = 3 * len(policy.steps)
    return odds(policy, weather, scenarios=scenarios, seed=seed, dates=dates, slow=barred)


def what_reserves_buy(
    problem: Problem,
    policy: Policy,
    chances: Mapping[str, StormChance],
    *,
    scenarios: int,
    seed: int,
    slow: Mapping[str, float] | None = None,
) -> tuple[ReserveWorth, ...]:
    """What one more night of food and fuel at each place would buy, the most first.

    Each is held against the plan as it is in the same scenarios.
    """
    places = problem.route.places
    before = odds_of(problem, policy, chances, scenarios=scenarios, seed=seed, slow=slow)
    worth = []
    for at, reserve in enumerate(policy.reserves):
        more = replace(
            reserve, food_nights=reserve.food_nights + 1, fuel_nights=reserve.fuel_nights + 1
        )
        reserves = (*policy.reserves[:at], more, *policy.reserves[at + 1 :])
        bigger = replace(policy, reserves=reserves)
        after = odds_of(problem, bigger, chances, scenarios=scenarios, seed=seed, slow=slow)
        gain, error = difference(after, before)
        worth.append(ReserveWorth(places[reserve.place].place_id, gain, error))
    return tuple(sorted(worth, key=lambda one: -one.gain))
