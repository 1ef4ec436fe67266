"""The requirements land in the bands of common practice.

Status of every band here: common practice, no source.
"""

import json
from pathlib import Path

import pytest

from service.translate.read.requests import read_plan_request
from solver.problem import Conditions, FuelKind
from solver.requirements.consumables import consumables
from solver.requirements.fuel import fuel
from tests.requirements.snow_world import (
    figure,
    figures,
    notices,
    reckoned,
    snow_world,
    with_conditions,
    with_place,
)

US_FL_OZ_ML = 29.5735
US_OZ_G = 28.3495
EXAMPLES = Path(__file__).parents[2] / "examples"
NAMES = ("smallest-request", "independent-three", "guided-six", "guided-seven")


def example(name):
    """The problem of an example."""
    document = json.loads((EXAMPLES / f"{name}.json").read_text(encoding="utf-8"))
    return read_plan_request(document).problem


@pytest.mark.parametrize("name", NAMES)
def test_melting_all_water_burns_five_to_eight_ounces_a_day(name):
    """5 to 8 US fl oz of fuel per person-day at every camp (common practice, no source)."""
    each = figures(reckoned(fuel, example(name)), "fuel_per_person_night")
    assert each
    assert all(5.0 <= f.value / US_FL_OZ_ML <= 8.0 for f in each)


@pytest.mark.parametrize("name", NAMES)
def test_the_examples_menus_agree_with_the_chain(name):
    """Night sets drawn up from common practice lie within a fifth of the chain at every camp."""
    assert not notices(reckoned(fuel, example(name)), "fuel_differs")


def test_three_ounces_of_sun_cream_last_24_days():
    """About 3 oz of zinc-oxide cream per person for 24 days (common practice; half an ounce)."""
    cream = figure(reckoned(consumables, snow_world(nights=23)), "sun_cream", person_id="ann")
    assert cream.value / US_OZ_G == pytest.approx(3.0, abs=0.5)


@pytest.mark.parametrize(("canister_c", "burns_well"), [(-6.0, False), (-3.0, True)])
def test_isobutane_is_poor_below_25_degrees_fahrenheit(canister_c, burns_well):
    """Isobutane near the sea burns poorly below 25 degF (-3.9 degC), well above (practice)."""
    world = with_place(snow_world(conditions=Conditions()), "camp", elevation_m=0)
    world = with_conditions(
        world,
        fuel_kind=FuelKind.CANISTER_GAS,
        isobutane_share=1.0,
        canister_temperature_c=canister_c,
    )
    (answer,) = notices(reckoned(fuel, world), "canister_gas")
    assert ("burns well." in answer.message) == burns_well
    assert ("bowl of water" in answer.message) != burns_well


def test_a_warmed_canister_burns_where_a_cold_one_does_not():
    """In a bowl of water near 5 degC the same isobutane burns well on a night of -15 degC."""
    world = with_place(snow_world(conditions=Conditions()), "camp", elevation_m=0)
    world = with_conditions(world, fuel_kind=FuelKind.CANISTER_GAS, isobutane_share=1.0)
    warmed = with_conditions(world, canister_temperature_c=5.0)
    assert "burns well." not in notices(reckoned(fuel, world), "canister_gas")[0].message
    assert "burns well." in notices(reckoned(fuel, warmed), "canister_gas")[0].message


@pytest.mark.parametrize("world", [snow_world(), snow_world(nights=27), *map(example, NAMES)])
def test_warmers_are_few(world):
    """At most 4 pairs of hand warmers and 1 or 2 of insoles per person-trip (practice)."""
    found = reckoned(consumables, world)
    hands, insoles = figures(found, "hand_warmers"), figures(found, "insole_warmers")
    assert len(hands) == len(insoles) == len(world.roster)
    assert all(1 <= f.value <= 4 for f in hands)
    assert all(1 <= f.value <= 2 for f in insoles)


def test_waste_is_planned_with_liner_and_paper():
    """A request that says nothing carries down 150 + 20 + 15 g a person and night (practice)."""
    document = json.loads((EXAMPLES / "smallest-request.json").read_text(encoding="utf-8"))
    assert "waste" not in document
    assert read_plan_request(document).problem.waste.waste_g_per_person_night == 185
