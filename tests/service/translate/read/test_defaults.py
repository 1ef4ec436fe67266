"""Defaults: each is one number, and its text is made from it."""

import ast
import copy
import re
from dataclasses import replace
from pathlib import Path

import pytest

from api_schema.examples import SMALLEST_REQUEST
from service.translate.read import defaults, quantities
from service.translate.read.defaults import Default, sled_factor_percent
from service.translate.read.generic_food import BANDS, BOTTLE, STORM
from service.translate.read.generic_kit import PERSONAL_KIT
from service.translate.read.notes import Notes
from service.translate.read.requests import read_plan_request
from solver.problem import RuleSettings
from solver.requirements.water import water_pattern

ROOM = Path(defaults.__file__).parent
FIGURES = {name: value for name, value in vars(defaults).items() if isinstance(value, Default)}


@pytest.mark.parametrize("default", FIGURES.values(), ids=FIGURES)
def test_the_text_of_a_default_says_its_number(default):
    """What the text says, read as a request would be, is the number that is planned with."""
    read_back = quantities.whole_nearest(default.text)
    if default.in_words is defaults.words.density_of_room:
        read_back = 1000 / read_back
    assert read_back == default.value
    assert replace(default, value=2 * default.value).text != default.text


def test_a_default_is_taken_down_when_it_is_taken():
    """Taking a default gives its number, and notes its address, text and source once."""
    notes = Notes()
    assert notes.default("/roster/0/water", defaults.WATER) == 2000
    assert notes.default("/roster/0/water", defaults.WATER) == 2000
    (noted,) = notes.assumptions
    assert (noted.pointer, noted.value, noted.source) == (
        "/roster/0/water",
        "2 L",
        "common practice, no source",
    )


def test_no_other_text_holds_a_figure():
    """No string in the room that reads requests is a bare quantity; stand-ins are no defaults."""
    found = {
        (file.name, node.value)
        for file in ROOM.glob("*.py")
        if file.name != "repairs.py"
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8")))
        if isinstance(node, ast.Constant)
        and isinstance(node.value, str)
        and re.fullmatch(r"[0-9.]+ (?:g|kg|mL|L|%|kg/L|m)", node.value)
    }
    assert found == set()


def test_a_changed_default_changes_plan_and_assumption(monkeypatch):
    """Where a default is another number, the problem and the text of its assumption follow."""
    monkeypatch.setattr(defaults, "WATER", replace(defaults.WATER, value=1500))
    read = read_plan_request(SMALLEST_REQUEST)
    assert {person.water_g for person in read.problem.roster} == {1500}
    said = {a.value for a in read.assumptions if a.pointer.endswith("/water")}
    assert said == {"1.5 L"}


@pytest.mark.parametrize(
    ("steepest_deg", "percent"),
    [(None, 85), (0, 100), (10, 85), (16, 85), (20, 65), (22, 65), (25, 50), (25.1, 0)],
)
def test_the_share_of_a_sled_follows_the_steepest_angle(steepest_deg, percent):
    """Between the angles of common practice the next steeper figure holds; over 25 deg none."""
    assert sled_factor_percent(steepest_deg) == percent


def test_the_generic_sets_cover_every_elevation():
    """Every band of the rulebook has a set of its own name, and the storm set has no band."""
    rules = RuleSettings()
    assert {rules.elevation_band(metres) for metres in range(-400, 8849, 50)} == set(BANDS)
    assert [s.set_id for s in BANDS.values()] == list(BANDS)
    assert [s.where(rules) for s in BANDS.values()] == [
        "below 3000 m",
        "from 3000 m to 4000 m",
        "from 4000 m",
    ]
    assert STORM.where(rules) == "held in reserve"


@pytest.mark.parametrize(
    ("elevation_m", "band"), [(2499, "low"), (2500, "mid"), (4499, "mid"), (4500, "high")]
)
def test_bands_of_a_request_move_its_generic_sets_and_water(elevation_m, band):
    """Limits given with the rules move generic food, water and the food's target together."""
    document = copy.deepcopy(SMALLEST_REQUEST)
    document["rules"] = {"numbers": {"middle_from_m": 2500, "high_from_m": 4500}}
    document["route"]["places"][2]["elevation"] = f"{elevation_m} m"
    problem = read_plan_request(document).problem
    (group,) = problem.cook_groups
    assert group.set_id_at("camp-2") == band
    pattern = water_pattern(
        elevation_m=elevation_m,
        storm=False,
        conditions=problem.conditions,
        rules=problem.rules,
    )
    assert pattern.total_l == pytest.approx({"low": 4.0, "mid": 4.3, "high": 4.6}[band])


def test_the_generic_kit_and_bottle_are_what_is_common():
    """The kit is almost 14 kg, each piece once; a bottle is filled to three quarters of a litre."""
    assert 13_500 < sum(item.mass_g for item in PERSONAL_KIT) < 14_000
    assert len({item.item_id for item in PERSONAL_KIT}) == len(PERSONAL_KIT)
    assert BOTTLE.content_ml == 750
