"""Every fact that a problem can hold can be said in a request: none is out of a caller's reach."""

import copy
import json
from collections.abc import Iterator
from dataclasses import MISSING, fields, is_dataclass
from pathlib import Path
from typing import Any

import pytest

from service.jobs.desk_child import state_requirements
from service.translate.read.requests import read_plan_request
from solver.problem import (
    CacheSite,
    Caps,
    Conditions,
    Container,
    Day,
    Evacuation,
    Flight,
    Item,
    Leg,
    Need,
    NightSet,
    Person,
    Physique,
    Pin,
    Place,
    Reserve,
    RuleSettings,
    Sled,
    Waste,
)
from solver.rulebook import RULES, RuleKind

SMALLEST = json.loads(
    (Path(__file__).parents[4] / "examples" / "smallest-request.json").read_text(encoding="utf-8")
)
KINDS = (
    CacheSite,
    Caps,
    Conditions,
    Container,
    Day,
    Evacuation,
    Flight,
    Item,
    Leg,
    Need,
    NightSet,
    Person,
    Physique,
    Pin,
    Place,
    Reserve,
    RuleSettings,
    Sled,
    Waste,
)
SETTING = next(setting for rule in RULES for setting in rule.settings)
SOFT = next(rule for rule in RULES if rule.kind is not RuleKind.HARD)


def told_in_full() -> dict[str, Any]:
    """A request in which every field stands somewhere, with another value than its default."""
    document = copy.deepcopy(SMALLEST)
    for place in document["route"]["places"]:
        place["name"] = "a place"
    document["route"]["places"][1]["cache"] = {
        "depth": "1.2 m",
        "poles": 2,
        "pole_above_snow": "1.5 m",
        "expected_snow": "50 cm",
        "position": True,
        "label": True,
        "dangers": ["melt_out"],
    }
    document["route"]["legs"][0] |= {
        "ascent": "600 m",
        "descent": "10 m",
        "steepest_angle": "12 deg",
        "sled_factor_outbound": "80 %",
        "sled_factor_homeward": "90 %",
        "crevasse_hazard": "low",
        "traverse": True,
        "hours_outbound": "5 h",
        "hours_homeward": "3 h",
        "snow": "soft",
        "sinkage": "10 cm",
        "trail": "guides",
        "day_temperature": "-10 degC",
        "day_wind": "20 km/h",
    }
    document["calendar"][4] = {
        "places": ["camp-2"],
        "start": "06:00",
        "turn_round": "14:00",
        "note": "a rest",
    }
    thing = {"item_id": "thing", "mass": "1 kg", "needed": "every_night", "name": "a thing"}
    document["roster"][0] |= {
        "name": "the lead",
        "role": "leads",
        "guide": True,
        "strong": True,
        "height": "180 cm",
        "age_years": 40,
        "sex": "female",
        "pack_caps": {"pack_homeward": "28 kg"},
        "load_limit": "30 kg",
        "load_limit_reason": "a bad knee",
        "kit_to_rope_team": True,
        "summit_water": "3 L",
        "avoids": ["milk"],
        "reacts_to": ["peanut"],
        "diet": "vegetarian",
        "flying_mass": "90 kg",
        "extra_items": [thing],
    }
    document["sleds"] = [
        {
            "sled_id": "red",
            "hauler": "lead",
            "second_hauler": "second",
            "second_share": "40 %",
            "last_day": 9,
        }
    ]
    document["gear"] += [
        thing
        | {"item_id": "cover", "purpose": "shelter", "shelter_places": 2, "length": "60 cm"}
        | {"count": 2, "apart": "covers", "outside": True, "spoils_below": "-40 degC"},
        thing
        | {"item_id": "handset", "purpose": "communicator", "communicator_kind": "radio"}
        | {"rope_team": "team", "in_use_on": ["pack"]},
        thing | {"item_id": "bin", "purpose": "human_waste_container", "capacity": "8 L"},
        thing | {"item_id": "suit", "purpose": "cold_clothing", "needed_below": "-30 degC"},
        thing
        | {"item_id": "wands", "needed": "at_place", "up_to": "camp-1", "go_ahead": True}
        | {"may_follow": True, "keeper": "lead"},
        thing | {"item_id": "screws", "from_place": "camp-1"},
    ]
    night_set = {
        "set_id": "all-heights",
        "mass": "900 g",
        "packaging": "60 g",
        "lunch": "300 g",
        "volume": "2 L",
        "fuel": "180 mL",
        "energy_kcal": 3900,
        "bags": 30,
        "contains": ["egg"],
        "suits_diets": ["vegetarian"],
        "simmers": False,
        "lowest": "0 m",
        "highest": "5000 m",
        "dinner_kinds": 4,
        "lunch_needs_cooking": False,
        "lunch_energy_kcal": 1500,
        "spoils_below": "-40 degC",
    }
    spare = night_set | {"set_id": "spare", "storm": True, "sets_per_bag": 3}
    document["menu"] = {"night_sets": [night_set, spare]}
    document["fuel"] = {
        "density": "0.8 kg/L",
        "margin": "15 %",
        "containers": [
            {
                "container_id": "can",
                "content": "750 mL",
                "capacity": "1 L",
                "tare": "100 g",
                "volume": "1.2 L",
                "count": 12,
            }
        ],
    }
    document["reserves"] = [
        {"place": "camp-1", "nights": 1, "kind": "evacuation", "people": 2, "set_id": "spare"}
    ]
    document["waste"] = {
        "per_person_night": "100 g",
        "trash_sack": "3 kg",
        "human_waste_sack": "3 kg",
        "trash_density": "0.5 kg/L",
        "human_waste_density": "1 kg/L",
        "may_be_left": True,
    }
    document["flights"] = [
        {
            "flight_id": "in-1",
            "direction": "fly_in",
            "payload": "900 kg",
            "seats": 4,
            "volume": "3000 L",
            "longest": "3 m",
            "people": ["lead", "second", "third"],
            "fuel_with_people": True,
            "loaded_by_operator": True,
        }
    ]
    document["evacuations"] = [{"person": "third", "day": 3}]
    document["pins"] = [
        {"unit_id": "stove", "person_id": "lead", "day": 2, "in": "sled", "count": 2},
        {"unit_id": "rope", "person_id": "third", "day": 1, "step": 2},
    ]
    document["conditions"] = {
        "fuel_kind": "white_gas",
        "stove_efficiency": "40 %",
        "snow_temperature": "-10 degC",
        "melted_water": "2 L",
        "boiled_water": "2 L",
        "simmering": "2 min",
        "priming": "2 g",
        "season": "winter",
        "latitude": "63 deg",
        "stove_power": "1.2 kW",
        "melting_time": "3 h",
        "solar_panel": "20 W",
        "gas_blend": {"propane": "20 %", "isobutane": "70 %", "n_butane": "10 %"},
        "canister_temperature": "-5 degC",
        "wind": "30 km/h",
        "high_latitude": True,
        "sleeping_rule": "cautious",
        "travel_method": "munter",
        "travel_factor": 1.5,
        "sled_friction": 0.1,
        "appetite_loss": "10 %",
    }
    other = SETTING.most if SETTING.value != SETTING.most else SETTING.least
    document["rules"] = {
        "numbers": {SETTING.name: other},
        "off": [SOFT.rule_id],
        "waivers": [{"rule_id": "fuel_spread", "reason": "Short trip."}],
        "pack_volume_allowance": "20 %",
    }
    return document


def objects_in(value: object) -> Iterator[object]:
    """Every dataclass object in a value, however deep."""
    if is_dataclass(value) and not isinstance(value, type):
        yield value
        for field in fields(value):
            yield from objects_in(getattr(value, field.name))
    elif isinstance(value, tuple):
        for part in value:
            yield from objects_in(part)


@pytest.fixture(scope="module")
def objects() -> list[object]:
    """The parts of the problem of a request that says everything."""
    return list(objects_in(read_plan_request(told_in_full()).problem))


@pytest.mark.parametrize(
    ("kind", "name"),
    [
        (kind, field.name)
        for kind in KINDS
        for field in fields(kind)
        if (field.default is not MISSING or field.default_factory is not MISSING)
        and field.name != "presence"
    ],
    ids=lambda part: part if isinstance(part, str) else part.__name__,
)
def test_each_field_with_a_default_can_be_said(objects, kind, name):
    """Some part of the problem has another value in this field than the default.

    Who is there from when until when no request says: a state does, on the way.
    """
    (field,) = (f for f in fields(kind) if f.name == name)
    default = field.default if field.default is not MISSING else field.default_factory()
    assert any(getattr(part, name) != default for part in objects if isinstance(part, kind))


def test_all_kinds_of_parts_are_looked_at(objects):
    """No kind of part with defaults is left out of this test, but those that group others."""
    grouping = {"Problem", "CookGroup", "Presence"}
    seen = {
        type(part)
        for part in objects
        if any(f.default is not MISSING or f.default_factory is not MISSING for f in fields(part))
    }
    assert {kind.__name__ for kind in seen} - grouping == {kind.__name__ for kind in KINDS}


def test_what_it_needs_can_be_stated_too():
    """A request that says everything gets the figures of its needs."""
    assert len(state_requirements(told_in_full()).figures) > 5
