"""How many nights a cook group can sit still where it is, after each night of a plan.

After the night of a day, H is what stands where the group sleeps: night sets, or fuel [mL].
One more night takes a: n sets for n people, or the fuel of all who eat from the kitchen, with its
margin. Then

- `until_bare` is the largest k with k a <= H: after that nothing is left here;
- `until_turn_round` is the largest k with H - k a >= min(t a + 1, L a), t the setting
  `turn_round_nights` and L the nights still planned: after that the party turns homeward;
- `within_plan` is the largest k with H - k a >= H - S, S the least that stands here after any
  later night until the last that the group sleeps here or further out: so much may go without
  anything that the plan still takes from here being missed.

Each is the least over food and fuel, with what limits it. Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Literal

from solver.checker.ledger.meals import Meal
from solver.checker.ledger.replay import Replay
from solver.checker.ledger.times import after_night
from solver.checker.queries.holdings import fuel_ml, held, night_sets
from solver.checker.queries.kitchens import burnt_for
from solver.problem import CookGroup
from solver.quantities import share_up

Limit = Literal["food", "fuel"]


@dataclass(frozen=True, slots=True)
class Nights:
    """So many nights [1], and which of food and fuel runs out first."""

    nights: int
    limit: Limit


@dataclass(frozen=True, slots=True)
class Wait:
    """What a cook group of `people` can wait at a place after the night of a day.

    `sets` and `fuel_ml` stand there, `fuel_a_night_ml` is what one more night burns [mL].
    """

    day: int
    place_id: str
    cook_group_id: str
    people: int
    sets: int
    fuel_ml: int
    fuel_a_night_ml: int
    until_bare: Nights
    until_turn_round: Nights
    within_plan: Nights


@dataclass(frozen=True, slots=True)
class _Stock:
    """One thing that waiting uses up: how much of it stands somewhere, and what a night takes."""

    limit: Limit
    a_night: int
    after: Callable[[int], int]


def waits(replay: Replay) -> Iterator[Wait]:
    """Every cook group after every night, by day, in the order of the groups."""
    for meal in replay.facts.meals:
        yield _wait(replay, replay.facts.problem.cook_group(meal.cook_group_id), meal)


def _wait(replay: Replay, group: CookGroup, meal: Meal) -> Wait:
    facts = replay.facts
    burnt_ml = share_up(
        amount=burnt_for(facts, meal),
        percent=100 + facts.problem.fuel_margin_percent,
    )
    sets = night_sets(facts, group.cook_group_id)

    def fuel_after(day: int) -> int:
        worth = fuel_ml(facts, day, group.cook_group_id)
        return held(replay, worth, (meal.place_id,), after_night(facts.night(day)))

    def sets_after(day: int) -> int:
        return held(replay, sets, (meal.place_id,), after_night(facts.night(day)))

    stocks = [_Stock("food", meal.people, sets_after)]
    if group.containers and burnt_ml:
        stocks.append(_Stock("fuel", burnt_ml, fuel_after))
    here = [(stock, stock.after(meal.day)) for stock in stocks]
    left = len(facts.timeline.nights) - meal.day
    turn = facts.problem.rules.whole("turn_round_nights")
    return Wait(
        day=meal.day,
        place_id=meal.place_id,
        cook_group_id=group.cook_group_id,
        people=meal.people,
        sets=sets_after(meal.day),
        fuel_ml=fuel_after(meal.day),
        fuel_a_night_ml=burnt_ml,
        until_bare=_least((stock, there) for stock, there in here),
        until_turn_round=_least(
            (stock, there - min(turn * stock.a_night + 1, left * stock.a_night))
            for stock, there in here
        ),
        within_plan=_least((stock, _spare(replay, group, meal, stock)) for stock in stocks),
    )


def _least(spare: Iterator[tuple[_Stock, int]]) -> Nights:
    """The fewest nights that any of some stocks lasts, the first named among equals."""
    return min(
        (Nights(max(amount, 0) // stock.a_night, stock.limit) for stock, amount in spare),
        key=lambda nights: nights.nights,
    )


def _spare(replay: Replay, group: CookGroup, meal: Meal, stock: _Stock) -> int:
    """The least of a stock that stands here after this night or a later one that counts."""
    route, home = replay.facts.problem.route, replay.facts.problem.start_place
    far = len(route.path(home, meal.place_id))
    days = [
        later.day
        for later in replay.facts.meals
        if later.cook_group_id == group.cook_group_id
        and later.day >= meal.day
        and len(route.path(home, later.place_id)) >= far
    ]
    return min(stock.after(day) for day in range(meal.day, max(days) + 1))
