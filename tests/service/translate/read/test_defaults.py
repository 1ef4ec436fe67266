"""Defaults: each is one number, and its text is made from it."""

import ast
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
        if file.name != "mending.py"
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
    """Each band ends where the next begins, the first and the last are open, storm has none."""
    assert BANDS[0].from_m is None
    assert BANDS[-1].below_m is None
    assert [s.below_m for s in BANDS[:-1]] == [s.from_m for s in BANDS[1:]]
    assert [s.band for s in BANDS] == ["below 3000 m", "from 3000 m to 4000 m", "from 4000 m"]
    assert STORM.band == "held in reserve"


def test_the_generic_kit_and_bottle_are_what_is_common():
    """The kit is almost 14 kg, each piece once; a bottle is filled to three quarters of a litre."""
    assert 13_500 < sum(item.mass_g for item in PERSONAL_KIT) < 14_000
    assert len({item.item_id for item in PERSONAL_KIT}) == len(PERSONAL_KIT)
    assert BOTTLE.content_ml == 750
