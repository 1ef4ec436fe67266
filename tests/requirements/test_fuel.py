"""Fuel of a camp against the worked example of the chain, and its margin, reserve and cans."""

import json
from dataclasses import replace
from pathlib import Path

import pytest

from service.translate.read.requests import read_plan_request
from solver.problem import Container, FuelKind, RuleSettings
from solver.requirements.fuel import CAUTIONS, chain_fuel_ml, fuel
from tests.requirements.snow_world import (
    WORKED,
    figure,
    figures,
    notices,
    reckoned,
    snow_world,
    told,
    with_conditions,
    with_place,
)

# 3 L melted and 2 L boiled at 4300 m from snow of -15 degC at an efficiency of 0.40, worked on
# IAPWS-06 and CoolProp heats: 2664 kJ in the pot, 148.3 g, 204.6 mL of white gas at 0.725 kg/L.
EACH_ML = 204.6
WITHIN = 0.01


def with_fuel(fuel_ml):
    """The world with another fuel of its night set."""
    world = snow_world()
    first, *rest = world.night_sets
    return replace(world, night_sets=(replace(first, fuel_ml=fuel_ml), *rest))


def with_bottles(count):
    """The world with so many bottles and no more."""
    world = snow_world()
    (group,) = world.cook_groups
    (bottle,) = group.containers
    return replace(world, cook_groups=(replace(group, containers=(replace(bottle, count=count),)),))


@pytest.mark.parametrize(
    ("figure_id", "expected"),
    [
        ("heat_per_person_night", 2664),
        ("fuel_mass_per_person_night", 148.3),
        ("fuel_per_person_night", EACH_ML),
    ],
)
def test_the_chain_meets_the_worked_example(figure_id, expected):
    """Heat, grams and millilitres are those of the worked example, within its 1 %."""
    assert figure(reckoned(fuel, snow_world()), figure_id).value == pytest.approx(
        expected, rel=WITHIN
    )


def test_nights_margin_and_reserve_are_figures_of_their_own():
    """Four person-nights, 10 % on them; four more in reserve, 10 % on those (by hand, 1 %)."""
    found = reckoned(fuel, snow_world())
    four = 4 * EACH_ML
    assert figure(found, "fuel_at_camp").value == pytest.approx(four, rel=WITHIN)
    assert figure(found, "fuel_margin").value == pytest.approx(0.1 * four, rel=WITHIN)
    assert figure(found, "fuel_reserve", kind="storm").value == pytest.approx(four, rel=WITHIN)
    assert figure(found, "fuel_reserve_margin").value == pytest.approx(0.1 * four, rel=WITHIN)


def test_a_storm_night_in_reserve_melts_less_water():
    """1.5 L at 22.6 g and 2 L at 40.2 g (worked list) are 157.7 mL; four of them, 1 %."""
    world = with_conditions(snow_world(), melted_l=None, boiled_l=None)
    reserve = figure(reckoned(fuel, world), "fuel_reserve", kind="storm")
    assert reserve.value == pytest.approx(4 * 157.7, rel=WITHIN)


def test_every_default_of_the_chain_names_its_source():
    """Whatever the request left open says so and where its value is from."""
    each = figure(reckoned(fuel, snow_world()), "fuel_per_person_night")
    assert all(i.source for i in each.inputs if i.is_default)
    assert told(each, "drink_temperature").is_default
    assert not told(each, "efficiency").is_default


@pytest.mark.parametrize(("fuel_ml", "told_of"), [(162, 1), (166, 0), (205, 0), (243, 0), (248, 1)])
def test_a_night_set_more_than_a_fifth_off_the_chain_is_told(fuel_ml, told_of):
    """A fifth of 204.6 mL either way is 163.7 and 245.5 mL; only beyond it is there a notice."""
    assert len(notices(reckoned(fuel, with_fuel(fuel_ml)), "fuel_differs")) == told_of


def test_the_translation_may_fill_a_night_set_with_the_chain():
    """The fuel of a set that the request leaves open is the chain's, rounded up (by hand, 1 %)."""
    told_ml = chain_fuel_ml(
        elevation_m=4300,
        night_temperature_c=-15.0,
        storm=False,
        density_g_per_l=725,
        conditions=WORKED,
        rules=RuleSettings(),
    )
    assert isinstance(told_ml, int)
    assert 0 <= told_ml - figure(reckoned(fuel, snow_world()), "fuel_per_person_night").value < 1


def test_containers_hold_what_the_hardest_night_asks_for():
    """Two bottles burn 900 mL by the last night, two more hold 900 mL whole: four (by hand)."""
    assert figure(reckoned(fuel, snow_world()), "fuel_containers").value == 4


@pytest.mark.parametrize(("count", "told_of"), [(2, 1), (3, 0)])
def test_too_little_room_for_the_chain_is_told(count, told_of):
    """1800 mL do not fit into two bottles of 750 mL but fit into three, whatever their use."""
    assert len(notices(reckoned(fuel, with_bottles(count)), "fuel_containers_short")) == told_of


def test_longer_nights_take_more_containers():
    """Twelve person-nights and the margin are 2701 mL, four bottles; two hold the reserve."""
    assert figure(reckoned(fuel, snow_world(nights=6)), "fuel_containers").value == 6


def test_a_reserve_that_is_burnt_later_is_counted_once():
    """What all nights and all reserves ask for is nine cans, but never at once: eight will do.

    The six burn seven cans by the end; the high camp's storm reserve is burnt on the way down.
    """
    path = Path(__file__).parents[2] / "examples" / "guided-six.json"
    problem = read_plan_request(json.loads(path.read_text(encoding="utf-8"))).problem
    found = reckoned(fuel, problem)
    for kind in ("can", "bottle"):
        needed = figure(found, "fuel_containers", container_id=kind).value
        assert needed <= figure(found, "fuel_containers_taken", container_id=kind).value
    assert not notices(found, "fuel_containers_short")


def test_a_kind_that_runs_out_is_followed_by_the_next():
    """One can of 800 mL, then bottles: the nights take the can and one bottle (by hand)."""
    world = snow_world()
    (group,) = world.cook_groups
    can = Container("can", "kitchen", 800, 120, 1000, count=1)
    both = replace(group, containers=(can, *group.containers))
    found = reckoned(fuel, replace(world, cook_groups=(both,), reserves=()))
    assert figure(found, "fuel_containers", container_id="can").value == 1
    assert figure(found, "fuel_containers", container_id="bottle").value == 1


def test_an_efficiency_out_of_range_gives_a_notice_and_no_figure():
    """An efficiency of 0.9 is refused by the chain, which is told instead of a number."""
    found = reckoned(fuel, with_conditions(snow_world(), stove_efficiency=0.9))
    assert not figures(found, "fuel_at_camp")
    assert not figures(found, "fuel_containers")
    assert "0.75" in notices(found, "fuel_per_person_night_not_given")[0].message


def test_snow_is_as_cold_as_the_night_where_nothing_is_told():
    """The default snow is the camp's night of -15 degC, and above 0 degC there is no snow."""
    world = with_conditions(snow_world(), snow_temperature_c=None)
    for night_c, snow_c in ((-15.0, -15.0), (4.0, 0.0), (-45.0, -40.0)):
        found = reckoned(fuel, with_place(world, "camp", night_temperature_c=night_c))
        snow = told(figure(found, "fuel_per_person_night"), "snow_temperature")
        assert (snow.value, snow.is_default) == (snow_c, True)


@pytest.mark.parametrize(("density", "told_of"), [(719, 1), (720, 0), (880, 0), (881, 1)])
def test_a_density_more_than_a_tenth_off_the_fuels_own_is_told(density, told_of):
    """Kerosene has 0.80 kg/L (from memory, unverified); 720 to 880 g/L are within a tenth."""
    world = with_conditions(snow_world(), fuel_kind=FuelKind.KEROSENE)
    found = reckoned(fuel, replace(world, fuel_density_g_per_l=density))
    assert len(notices(found, "fuel_density_differs")) == told_of


def test_a_density_far_from_the_fuels_own_is_told():
    """Liquid gas has 551 g/L, the plan weighs 725 g/L, which is 30 % more."""
    world = with_conditions(snow_world(), fuel_kind=FuelKind.CANISTER_GAS)
    assert "551" in notices(reckoned(fuel, world), "fuel_density_differs")[0].message


def test_a_canister_too_cold_to_feed_is_said_in_words():
    """Butane boils at -0.5 degC by the sea and near -14 degC in 593 hPa: at -25 degC it is dead."""
    world = with_conditions(snow_world(), fuel_kind=FuelKind.CANISTER_GAS, n_butane_share=1.0)
    found = reckoned(fuel, with_place(world, "camp", night_temperature_c=-25.0))
    assert "even a full canister is dead" in notices(found, "canister_gas")[0].message
    assert figure(found, "canister_gas_left").value == 100.0
    assert notices(found, "fuel_containers_not_given")
    assert not figures(found, "fuel_containers")


def test_gas_shares_that_do_not_add_up_are_told():
    """Half a canister of isobutane and nothing else is refused in words."""
    world = with_conditions(snow_world(), fuel_kind=FuelKind.CANISTER_GAS, isobutane_share=0.5)
    found = reckoned(fuel, world)
    assert "add up to 1" in notices(found, "canister_gas_not_given")[0].message


def test_liquid_fuel_says_nothing_of_canisters():
    """Without canisters there is no answer about them."""
    assert not notices(reckoned(fuel, snow_world()), "canister_gas")


def test_stoves_come_with_their_cautions():
    """Carbon monoxide and cold fuel on the skin are cautions of every trip."""
    found = reckoned(fuel, snow_world())
    assert {n.notice_id for n in found.notices if n.is_caution} == {
        "carbon_monoxide",
        "fuel_contact",
    }
    assert all(caution in found.notices for caution in CAUTIONS)
