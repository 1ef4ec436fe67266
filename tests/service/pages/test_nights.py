"""The night on a day's sheet, read from a plan of two people that was written by hand."""

import copy
from dataclasses import dataclass

import pytest

from service.pages.blocks import Lines
from service.pages.facts import PlanFacts, Writer
from service.pages.nights import night_blocks
from tests.service.reports.paper.two_days import PLAN, unit

REQUEST = {
    "roster": [{"person_id": "ann", "name": "Ann"}, {"person_id": "bob"}],
    "route": {
        "places": [
            {"place_id": place, "name": name, "elevation": "2000 m"}
            for place, name in (("road", None), ("cache", None), ("camp", "Bend camp"))
        ]
    },
}


@dataclass
class Night:
    """The blocks of a night by what they say."""

    plan: dict
    lines: Lines | None = None

    def table(self, caption: str, day: int = 2) -> tuple[tuple[str, ...], ...]:
        """The rows of a table without its blank cells."""
        about = {"place_id": "camp", "day": 2}
        figures = ({"figure_id": "human_waste", "about": about, "value": 900.0},)
        made = PlanFacts("p", 1, "now", {"plan": self.plan}, REQUEST, Writer("metric"), figures)
        self.lines, *tables = night_blocks(made, day)
        (found,) = (one for one in tables if one.caption == caption)
        return found.rows


@pytest.fixture
def night() -> Night:
    """The night after the second day."""
    used = PLAN["used"][0] | {"people": 2}
    days = [{"day": day, "places": {"rope-1": ["road", "camp"]}} for day in (1, 2)]
    left = {"place": "cache", "cook_groups": [], "units": [unit("ann/bag"), unit("all/low", 3)]}
    stock = [*PLAN["stock"], *({"day": day} | left for day in (1, 2))]
    return Night({**copy.deepcopy(PLAN), "used": [used], "days": days, "stock": stock})


def test_stove_and_pot_stand_once_and_food_and_fuel_with_their_kitchen(night):
    """Each thing names who brought it, by the name on the roster."""
    assert night.table("Kitchens and shelter") == (
        ("Bend camp", "all", "stove", "stove, brought today by bob"),
        ("Bend camp", "all", "pot", "pot, brought today by bob"),
        ("Bend camp", "all", "shelter", "none here"),
        ("Bend camp", "all", "food", "2 × night set low, brought today by bob"),
        ("Bend camp", "all", "fuel", "can, open, brought today by Ann"),
    )
    assert night.lines.lines == ("Sleep at Bend camp: everybody.",)


def test_who_sleeps_elsewhere_is_named(night):
    """Where not everybody sleeps at the place, the names stand there."""
    trips = night.plan["trips"][:3]
    trips[2]["loads"].pop()
    night.plan["trips"] = trips
    night.table("Tonight")
    assert night.lines.lines == ("Sleep at Bend camp: Ann.",)


def test_two_kitchens_share_the_human_waste_of_their_camp(night):
    """Of the waste of all at a camp each kitchen has that of its own people.

    Until now every kitchen had all of it.
    """
    one, other = ({"cook_group": name, "people": n} for name, n in (("a", 2), ("b", 4)))
    night.plan["used"] = [night.plan["used"][0] | one, night.plan["used"][0] | other]
    rows = night.table("Tonight")
    assert [(row[1], row[5]) for row in rows] == [("a, 2 people", "0.30"), ("b, 4 people", "0.60")]


def test_what_is_left_alone_is_listed_once_and_then_named_by_its_day(night):
    """On the first night all of it with whose it is, later since when it lies there."""
    full = "3 × night set low. Of Ann: bag"
    assert night.table("Left alone tonight", day=1) == (("cache", full),)
    assert night.table("Left alone tonight") == (("cache", "as on day 1"),)
