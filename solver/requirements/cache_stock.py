"""How much food and fuel can pass through each cache."""

from __future__ import annotations

from solver.problem import PlaceKind, Problem, Timeline
from solver.quantities import units_up
from solver.requirements.consumption import night_meals
from solver.requirements.reserves import reserve_nights
from solver.requirements.surroundings import places_visited


def cache_stock_ml(problem: Problem, timeline: Timeline) -> dict[str, int]:
    """Volume of all food and fuel for nights at or beyond each cache site in use [mL].

    An upper bound of what stands there at once, since a plan settles how much of it is carried
    past. Fuel counts in containers of its kitchen's first kind.
    """
    needed: dict[str, int] = {}
    fuel_ml: dict[tuple[str, str], int] = {}
    for meal in night_meals(problem, timeline):
        bag_ml = meal.night_set.volume_ml * meal.night_set.sets_per_bag
        needed[meal.place_id] = needed.get(meal.place_id, 0) + meal.bags * bag_ml
        key = (meal.place_id, problem.kitchen_id(meal.cook_group_id))
        fuel_ml[key] = fuel_ml.get(key, 0) + meal.fuel_ml
    most: dict[object, tuple[str, str, int, int]] = {}
    for night in reserve_nights(problem, timeline):
        reserve = night.reserve
        night_set = problem.night_set(reserve.cook_group_id, reserve.set_id)
        food_ml = night.bags * night_set.volume_ml * night_set.sets_per_bag
        found = (reserve.place_id, reserve.cook_group_id, food_ml, night.fuel_ml)
        most[reserve] = max(most.get(reserve, found), found)
    for place_id, group_id, food_ml, its_fuel_ml in most.values():
        needed[place_id] = needed.get(place_id, 0) + food_ml
        kitchen = place_id, problem.kitchen_id(group_id)
        fuel_ml[kitchen] = fuel_ml.get(kitchen, 0) + its_fuel_ml
    for (place_id, group_id), amount_ml in fuel_ml.items():
        kinds = problem.cook_group(group_id).containers
        if kinds:
            count = units_up(amount=amount_ml, per_unit=kinds[0].content_ml)
            needed[place_id] = needed.get(place_id, 0) + count * kinds[0].volume_ml
    return {
        cache: sum(
            volume_ml
            for place_id, volume_ml in needed.items()
            if problem.route.is_at_or_beyond(place_id, cache)
        )
        for cache in places_visited(timeline)
        if problem.route.place(cache).kind is PlaceKind.CACHE_SITE
    }
