"""Fuel of night sets that a request leaves open: which camp it is reckoned at, and what is told."""

import copy
import math
from typing import Any

import pytest

from api_schema.examples import SMALLEST_REQUEST
from service.errors import RequestFaults
from service.translate.read.requests import ReadRequest, read_plan_request
from solver.problem import Conditions, RuleSettings
from solver.requirements.fuel import chain_fuel_ml

OPEN_SET = {"set_id": "stew", "mass": "900 g", "volume": "2 L"}


def smallest(**changes: Any) -> dict[str, Any]:
    """The smallest request with changes."""
    return copy.deepcopy(SMALLEST_REQUEST) | changes


def fuel_of(read: ReadRequest) -> dict[str, int]:
    """Fuel of each night set [mL]."""
    return {night_set.set_id: night_set.fuel_ml for night_set in read.problem.night_sets}


def reckoned_ml(
    elevation_m: int, night_c: float | None, *, storm: bool = False, **facts: Any
) -> int:
    """The chain's fuel of a night at a height [mL]."""
    return chain_fuel_ml(
        elevation_m=elevation_m,
        night_temperature_c=night_c,
        storm=storm,
        density_g_per_l=700,
        conditions=Conditions(**facts),
        rules=RuleSettings(),
    )


def test_generic_sets_take_the_camp_that_burns_most() -> None:
    """The generic low and storm sets burn what the chain says of the coldest, highest camp."""
    read = read_plan_request(smallest())
    by_camp = [reckoned_ml(1450, None), reckoned_ml(2050, -8), reckoned_ml(2750, -12)]
    assert fuel_of(read)["low"] == max(by_camp) == reckoned_ml(2750, -12) > min(by_camp)
    assert fuel_of(read)["storm"] == reckoned_ml(2750, -12, storm=True)


def test_the_chain_by_hand() -> None:
    """The generic low set's fuel is the heat by hand: ice warmed, melted, water warmed, at 40 %.

    Heats of ice and fusion as in IAPWS R10-06; 2.0 L to 10 degC, 2.0 L to the boiling point of
    about 90.9 degC at 2750 m in the standard atmosphere; white gas with 44 MJ/kg, within 2 %. Two
    minutes at 250 W for food done at sea level, doubled for each 10 K below 100 degC (a factor of
    1.88), and 2 g of priming, both defaults of common practice.
    """
    warm_ice = 12 * 2.05
    melted_kj = 2.0 * (warm_ice + 333.4 + 4.19 * 10)
    boiled_kj = 2.0 * (warm_ice + 333.4 + 4.19 * 90.9)
    simmered_kj = 2 * 60 * 0.250 * 1.88
    by_hand_ml = ((melted_kj + boiled_kj + simmered_kj) / (44.0 * 0.40) + 2.0) / 0.7
    assert fuel_of(read_plan_request(smallest()))["low"] == pytest.approx(by_hand_ml, rel=0.02)


def test_conditions_change_the_fuel_and_are_no_longer_assumed() -> None:
    """A better stove burns in proportion less, and its efficiency is then no assumption.

    The 2 g of priming, 2.9 mL, are burnt whatever the efficiency.
    """
    worse = read_plan_request(smallest(conditions={"stove_efficiency": "30 %"}))
    better = read_plan_request(smallest(conditions={"stove_efficiency": "60 %"}))
    assert fuel_of(worse)["low"] == pytest.approx(2 * fuel_of(better)["low"] - 2.9, abs=1.5)
    told = {a.pointer for a in better.assumptions}
    assert "/conditions/stove_efficiency" not in told
    assert "/conditions/fuel_kind" in told


def test_what_went_into_the_fuel_is_assumed_with_its_source() -> None:
    """Fuel, efficiency, water, snow and a night that is not given stand among the assumptions."""
    told = {a.pointer: a for a in read_plan_request(smallest()).assumptions}
    assert told["/conditions/stove_efficiency"].value == "40 %"
    assert told["/conditions/stove_efficiency"].source == "from memory, unverified"
    for pointer in (
        "/conditions/fuel_kind",
        "/conditions/snow_temperature",
        "/conditions/melted_water",
        "/conditions/boiled_water",
        "/route/places/0/night",
    ):
        assert told[pointer].source == "common practice, no source"
    fuel = [a for a in told.values() if a.pointer == "/menu"]
    assert fuel
    assert "/route/places/1/night" not in told


def test_a_set_without_fuel_is_reckoned_and_one_with_fuel_kept() -> None:
    """Of two given sets the open one is reckoned at its own camp; the other burns what it says."""
    menu = {
        "night_sets": [
            OPEN_SET | {"below_elevation": "2500 m"},
            OPEN_SET | {"set_id": "soup", "fuel": "123 mL", "from_elevation": "2500 m"},
        ]
    }
    read = read_plan_request(smallest(menu=menu))
    assert fuel_of(read) == {
        "stew": max(reckoned_ml(1450, None), reckoned_ml(2050, -8)),
        "soup": 123,
    }
    (told,) = [a for a in read.assumptions if a.pointer == "/menu/night_sets/0/fuel"]
    assert told.value == f"{fuel_of(read)['stew']} mL"


def test_a_reserve_counts_as_use() -> None:
    """A storm set held only in reserve is reckoned where it is held, with a storm day's water."""
    menu = {
        "night_sets": [
            OPEN_SET | {"fuel": "150 mL"},
            OPEN_SET | {"set_id": "bars", "storm": True},
        ]
    }
    read = read_plan_request(smallest(menu=menu))
    assert fuel_of(read)["bars"] == reckoned_ml(2750, -12, storm=True)


def test_cook_groups_share_the_fuel_of_a_shared_set() -> None:
    """Two cook groups at different camps use the same set with the fuel of the higher camp."""
    roster = [
        dict(person, cook_group=group, rope_team=group)
        for person, group in zip(SMALLEST_REQUEST["roster"], "aab", strict=True)
    ]
    calendar = [
        {"teams": {"a": ["road", "camp-1", "camp-2"], "b": ["road", "camp-1"]}},
        {"teams": {"a": ["camp-2", "camp-1", "road"], "b": ["camp-1", "road"]}},
    ]
    menu = {"night_sets": [OPEN_SET]}
    document = smallest(roster=roster, calendar=calendar, menu=menu, gear=[])
    fuels = {s.cook_group_id: s.fuel_ml for s in read_plan_request(document).problem.night_sets}
    assert fuels == dict.fromkeys("ab", math.ceil(reckoned_ml(2750, -12)))


def test_impossible_facts_are_told_once() -> None:
    """A stove that cannot be and a set for nobody are told at their places, and nothing else."""
    document = smallest(
        conditions={"stove_efficiency": "90 %"},
        menu={"night_sets": [OPEN_SET, OPEN_SET | {"set_id": "x", "cook_group": "nobody"}]},
    )
    with pytest.raises(RequestFaults) as refused:
        read_plan_request(document)
    pointers = {fault.pointer for fault in refused.value.faults}
    assert pointers == {"/conditions/stove_efficiency", "/menu/night_sets/1/cook_group"}


def test_a_place_below_the_sea_is_taken_and_told() -> None:
    """At -430 m, below the end of the chain, the fuel is that of the sea's shore, and says so."""
    document = smallest(calendar=[["road"], ["road"]])
    document["route"]["places"][0]["elevation"] = "-430 m"
    for place in document["route"]["places"]:
        place.pop("storm_nights", None)
    read = read_plan_request(document)
    # The chain takes the night from the standard atmosphere, which on the shore is 15 degC.
    assert fuel_of(read)["low"] == reckoned_ml(0, None)
    told = [a.what for a in read.assumptions if "Night set low: fuel" in a.what]
    assert len(told) == 1
    assert "computed for sea level" in told[0]
