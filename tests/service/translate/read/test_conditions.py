"""Conditions of a request, read into facts, and the faults of impossible ones."""

import copy
from typing import Any

import pytest

from api_schema.examples import SMALLEST_REQUEST
from service.errors import RequestFaults
from service.translate.read.requests import read_plan_request
from solver.problem import (
    Conditions,
    FuelKind,
    Physique,
    Season,
    Sex,
    SleepingRule,
    SnowKind,
    TrailBreaking,
    TravelMethod,
)


def request_with(conditions: dict[str, Any], **person: Any) -> dict[str, Any]:
    """The smallest request with these conditions, and more about the first person."""
    document = copy.deepcopy(SMALLEST_REQUEST) | {"conditions": conditions}
    document["roster"][0] |= person
    return document


def faults_of(document: dict[str, Any]) -> set[tuple[str, str]]:
    """Pointer and code of each fault of a request."""
    with pytest.raises(RequestFaults) as refused:
        read_plan_request(document)
    return {(fault.pointer, fault.code) for fault in refused.value.faults}


def test_a_request_without_conditions_has_no_facts() -> None:
    """A request that gives no conditions says no more than the month of its first day."""
    document = copy.deepcopy(SMALLEST_REQUEST)
    assert read_plan_request(document).problem.conditions == Conditions(month=5)
    del document["start_date"]
    assert read_plan_request(document).problem.conditions == Conditions()


def test_every_condition_is_read() -> None:
    """Each field of the conditions arrives in the unit that its fact is reckoned in."""
    document = request_with(
        {
            "fuel_kind": "canister_gas",
            "stove_efficiency": "45 %",
            "simmering": "0.1 h",
            "priming": "2.5 g",
            "snow_temperature": "14 degF",
            "melted_water": "2500 mL",
            "boiled_water": "2 L",
            "gas_blend": {"propane": "20 %", "isobutane": "70 %", "n_butane": "10 %"},
            "canister_temperature": "-5 degC",
            "wind": "10 m/s",
            "high_latitude": True,
            "sleeping_rule": "cdc",
            "travel_method": "munter",
            "travel_factor": 1.5,
            "sled_friction": 0.1,
            "appetite_loss": "20 %",
            "season": "winter",
            "latitude": "-63 deg",
            "stove_power": "1.1 kW",
            "melting_time": "270 min",
            "solar_panel": "20 W",
        },
        age_years=34,
        height="178 cm",
        sex="female",
    )
    assert read_plan_request(document).problem.conditions == Conditions(
        physiques=(Physique("lead", 34, 1.78, Sex.FEMALE),),
        fuel_kind=FuelKind.CANISTER_GAS,
        stove_efficiency=0.45,
        simmer_minutes=6.0,
        priming_g=2.5,
        snow_temperature_c=-10.0,
        melted_l=2.5,
        boiled_l=2.0,
        isobutane_share=0.7,
        n_butane_share=0.1,
        propane_share=0.2,
        canister_temperature_c=-5.0,
        wind_kmh=36.0,
        high_latitude=True,
        sleeping_rule=SleepingRule.CDC,
        travel_method=TravelMethod.MUNTER,
        travel_factor=1.5,
        sled_friction=0.1,
        appetite_loss_share=0.2,
        season=Season.WINTER,
        latitude_deg=-63.0,
        month=5,
        stove_power_w=1100.0,
        melting_hours=4.5,
        panel_power_w=20.0,
    )


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("stove_efficiency", "9 %"),
        ("stove_efficiency", "76 %"),
        ("simmering", "61 min"),
        ("priming", "51 g"),
        ("snow_temperature", "1 degC"),
        ("snow_temperature", "-41 degC"),
        ("melted_water", "21 L"),
        ("boiled_water", "22 qt"),
        ("canister_temperature", "61 degC"),
        ("wind", "401 km/h"),
        ("appetite_loss", "91 %"),
        ("latitude", "91 deg"),
        ("latitude", "-91 deg"),
        ("stove_power", "99 W"),
        ("stove_power", "6 kW"),
        ("melting_time", "29 min"),
        ("melting_time", "17 h"),
        ("solar_panel", "501 W"),
    ],
)
def test_an_impossible_condition_is_told(field: str, value: str) -> None:
    """A condition that cannot be is a fault at its own place, and the only one."""
    assert faults_of(request_with({field: value})) == {(f"/conditions/{field}", "out_of_range")}


@pytest.mark.parametrize(
    ("blend", "taken"),
    [
        ({"propane": "20 %", "isobutane": "80 %"}, True),
        ({"propane": "33.3 %", "isobutane": "33.3 %", "n_butane": "33.4 %"}, True),
        ({"propane": "20 %", "isobutane": "79 %"}, False),
        ({"isobutane": "100.1 %"}, False),
        ({}, False),
    ],
)
def test_a_blend_adds_up_to_a_hundred(blend: dict[str, str], taken: bool) -> None:
    """Shares of a gas blend that are not 100 % together are refused, those that are are taken."""
    document = request_with({"gas_blend": blend})
    if taken:
        assert read_plan_request(document).problem.conditions.propane_share is not None
    else:
        assert faults_of(document) == {("/conditions/gas_blend", "shares_do_not_add_up")}


def test_faults_of_conditions_and_people_are_told_together() -> None:
    """Faults of the wire, of a condition and of a body height come in one answer."""
    document = request_with(
        {"wind": "30", "stove_efficiency": "90 %", "travel_factor": 0.5, "sleeping_rule": "mine"},
        height="17.8 m",
    )
    assert faults_of(document) >= {
        ("/conditions/wind", "no_unit"),
        ("/conditions/stove_efficiency", "out_of_range"),
        ("/conditions/travel_factor", "too_small"),
        ("/conditions/sleeping_rule", "not_a_choice"),
        ("/roster/0/height", "out_of_range"),
    }


def test_snow_and_day_of_a_leg_are_read() -> None:
    """Snow, depth, trail, temperature and wind of a leg arrive in the units reckoned in."""
    document = copy.deepcopy(SMALLEST_REQUEST)
    document["route"]["legs"][0] |= {
        "snow": "soft",
        "sinkage": "0.2 m",
        "trail": "guides",
        "day_temperature": "5 degF",
        "day_wind": "10 m/s",
    }
    leg = read_plan_request(document).problem.route.legs[0]
    assert (leg.snow, leg.sinkage_cm, leg.trail) == (SnowKind.SOFT, 20.0, TrailBreaking.GUIDES)
    assert (leg.day_temperature_c, leg.day_wind_kmh) == (-15.0, 36.0)


@pytest.mark.parametrize(("field", "value"), [("sinkage", "101 cm"), ("day_wind", "401 km/h")])
def test_an_impossible_fact_of_a_leg_is_told(field: str, value: str) -> None:
    """Snow deeper than a person's middle and winds beyond any are faults at their own place."""
    document = copy.deepcopy(SMALLEST_REQUEST)
    document["route"]["legs"][1][field] = value
    assert faults_of(document) == {(f"/route/legs/1/{field}", "out_of_range")}
