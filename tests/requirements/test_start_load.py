"""The load of a small team on the day that it leaves, beside what is said in the trade.

Packs of 65 to 70 lb and sleds of 120 to 160 lb for small independent teams out for 26 to 30
days: common practice, no source.
"""

from __future__ import annotations

import json
from pathlib import Path

from service.translate.read.requests import read_plan_request
from solver.model.instance.world import build_world

EXAMPLE = Path(__file__).parents[2] / "examples" / "independent-three.json"
KG_PER_LB = 0.45359237
LEAST_KG, MOST_KG = (65 + 120) * KG_PER_LB, (70 + 160) * KG_PER_LB


def start_load_kg(rests: dict[str, int]) -> tuple[int, float]:
    """Days, and the load of one person at the start [kg], with so many rests at each camp."""
    request = json.loads(EXAMPLE.read_text(encoding="utf-8"))
    days = []
    for day in request["calendar"]:
        days.append(day)
        last = (day if isinstance(day, list) else day["places"])[-1]
        days += [[last]] * rests.pop(last, 0)
    request["calendar"] = days
    for container in request["fuel"]["containers"]:
        container["count"] += 4
    world = build_world(read_plan_request(request).problem)
    people = world.problem.roster
    total_g = sum(cargo.count * cargo.mass_g for cargo in world.cargo if cargo.born == 0)
    total_g += sum(sled.tare_g for sled in world.problem.sleds)
    total_g += sum(person.water_g + person.first_lunch_g for person in people)
    return len(days), total_g / 1000 / len(people)


def test_the_example_kept_out_for_four_weeks_stays_under_the_band() -> None:
    """28 days weigh over 60 kg a person and less than the 84 of the trade, as the docs say."""
    days, load_kg = start_load_kg({"camp-1": 5, "camp-2": 5, "camp-3": 5})
    assert days == 28
    assert 60 < load_kg < LEAST_KG < MOST_KG


def test_each_day_in_the_field_adds_its_food_and_fuel() -> None:
    """Fifteen more days add 0.9 to 1.3 kg each: food of 0.7 to 1.15 kg, fuel with its cans."""
    (_, short), (_, longer) = start_load_kg({}), start_load_kg({"camp-1": 5, "camp-2": 10})
    assert 0.9 < (longer - short) / 15 < 1.3
