"""Requests read into problems: defaults, expansion, and the grid.

The file is long because it goes through a request part by part.
"""

import copy
import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from service.translate.read.requests import ReadRequest, read_plan_request
from solver.problem import Direction, LegMode, NeedKind, PlaceKind, ReserveKind
from solver.problem.faults import find_faults
from solver.rulebook import SourceStatus

EXAMPLES = Path(__file__).parents[4] / "examples"
FILES = sorted(EXAMPLES.glob("*.json"))

Document = dict[str, Any]


@pytest.fixture
def smallest() -> Document:
    """The smallest request, to be changed."""
    return json.loads((EXAMPLES / "smallest-request.json").read_text(encoding="utf-8"))


def item_of(read: ReadRequest, unit_id: str):
    """The one item of a unit id."""
    (item,) = (item for item in read.problem.gear if item.unit_id == unit_id)
    return item


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_examples_have_no_faults(path: Path) -> None:
    """Every example is accepted, and the problem read from it contradicts itself nowhere."""
    read = read_plan_request(json.loads(path.read_text(encoding="utf-8")))
    assert find_faults(read.problem) == ()


def test_examples_are_there() -> None:
    """The five examples that the documentation names are the ones that are tested."""
    names = [path.stem for path in FILES]
    assert names == [
        "guided-seven",
        "guided-six",
        "guided-twelve",
        "independent-three",
        "smallest-request",
    ]


def test_every_default_is_told(smallest: Document) -> None:
    """What the smallest request leaves out is listed with pointer, value and source."""
    read = read_plan_request(smallest)
    told = {a.pointer: a for a in read.assumptions}
    for pointer in (
        "/roster/0/water",
        "/roster/2/pack_volume",
        "/roster/1/total_cap",
        "/roster/0/personal_kit",
        "/route/legs/0/sled_factor_outbound",
        "/sleds",
        "/menu",
        "/fuel/margin",
        "/fuel/density",
        "/fuel/containers",
        "/waste/per_person_night",
        "/rules/pack_volume_allowance",
    ):
        assert told[pointer].value
        status, _, documents = told[pointer].source.partition(": ")
        assert status in set(SourceStatus)
        assert bool(documents) == (status in {SourceStatus.READ, SourceStatus.PRINCIPLE})


def test_what_is_given_is_no_assumption(smallest: Document) -> None:
    """A field that the request sets is not listed as assumed."""
    smallest["roster"][0]["water"] = "1.5 L"
    read = read_plan_request(smallest)
    assert "/roster/0/water" not in {a.pointer for a in read.assumptions}
    assert read.problem.roster[0].water_g == 1500


def test_needs_round_up_and_capacities_down(smallest: Document) -> None:
    """An ounce of gear and a pound of cap are rounded to the side that is safe.

    1 oz is 28.349523125 g and 1 lb 453.59237 g by the international pound of 1959; 1 US fl oz
    is 29.5735295625 mL.
    """
    smallest["gear"][0]["mass"] = "1 oz"
    smallest["gear"][0]["volume"] = "1 floz"
    smallest["roster"][0]["pack_cap"] = "60 lb"
    smallest["roster"][0]["pack_volume"] = "100 qt"
    read = read_plan_request(smallest)
    assert item_of(read, "tent").mass_g == 29
    assert item_of(read, "tent").volume_ml == 30
    assert read.problem.roster[0].caps.pack_g == 27215
    assert read.problem.roster[0].pack_volume_ml == 94635


def test_decimals_stay_exact(smallest: Document) -> None:
    """3.2 kg is 3200 g, although the nearest binary fraction of 3.2 is more."""
    smallest["gear"][2]["mass"] = "3.2 kg"
    assert item_of(read_plan_request(smallest), "rope").mass_g == 3200


def test_temperatures(smallest: Document) -> None:
    """14 degF is -10 degC: the scale has an offset and is not merely scaled."""
    smallest["route"]["places"][1]["night"] = "14 degF"
    assert read_plan_request(smallest).problem.route.places[1].night_temperature_c == -10.0


def test_kinds_of_places(smallest: Document) -> None:
    """The start is a road head, the end of a summit leg a summit, anything else a camp."""
    smallest["route"]["places"].append({"place_id": "top", "elevation": "3100 m"})
    smallest["route"]["legs"].append({"from": "camp-2", "to": "top", "mode": "summit"})
    kinds = [place.kind for place in read_plan_request(smallest).problem.route.places]
    assert kinds == [PlaceKind.ROAD_HEAD, PlaceKind.CAMP, PlaceKind.CAMP, PlaceKind.SUMMIT]


@pytest.mark.parametrize(
    ("angle", "percent"),
    [
        ("9 deg", 100),
        ("10 deg", 85),
        ("16 deg", 85),
        ("17 deg", 65),
        ("22 deg", 65),
        ("25 deg", 50),
    ],
)
def test_sled_factor_follows_the_slope(smallest: Document, angle: str, percent: int) -> None:
    """Without a factor a steeper leg lets less of a sled's limits hold, in both directions."""
    smallest["route"]["legs"][0]["steepest_angle"] = angle
    leg = read_plan_request(smallest).problem.route.legs[0]
    assert (leg.sled_factor_outbound_percent, leg.sled_factor_homeward_percent) == (
        percent,
        percent,
    )


def test_pack_caps_by_leg(smallest: Document) -> None:
    """A cap for one mode and direction holds there, the general one elsewhere."""
    smallest["roster"][0]["pack_caps"] = {"pack_homeward": "30 kg"}
    caps = read_plan_request(smallest).problem.roster[0].caps
    assert caps.pack_on(LegMode.PACK, Direction.HOMEWARD) == 30_000
    assert caps.pack_on(LegMode.PACK, Direction.OUTBOUND) == 27_000


def test_sleds_left_out_and_none(smallest: Document) -> None:
    """Without `sleds` each sled cap has a sled; an empty list means none."""
    assert [s.hauler_id for s in read_plan_request(smallest).problem.sleds] == ["lead", "second"]
    smallest["sleds"] = []
    assert read_plan_request(smallest).problem.sleds == ()


def test_items_left_lower_down(smallest: Document) -> None:
    """Of six wands two stay at the first camp and the others go on."""
    smallest["gear"].append(
        {
            "item_id": "wand",
            "mass": "45 g",
            "volume": "0.1 L",
            "count": 6,
            "needed": "at_place",
            "up_to": "camp-2",
            "left_at": {"camp-1": 2},
        }
    )
    read = read_plan_request(smallest)
    assert (item_of(read, "wand").count, item_of(read, "wand").need.up_to) == (4, "camp-2")
    left = item_of(read, "wand.camp-1")
    assert (left.count, left.need.up_to) == (2, "camp-1")


def test_parts_have_their_own_carrier(smallest: Document) -> None:
    """An item in parts becomes one item for each part, and no whole one."""
    smallest["gear"][0] = {
        "item_id": "tent",
        "needed": "every_night",
        "parts": [
            {"part_id": "fly", "mass": "2 kg", "volume": "5 L"},
            {"part_id": "poles", "mass": "900 g", "volume": "2 L"},
        ],
    }
    read = read_plan_request(smallest)
    assert [i.item_id for i in read.problem.gear[:2]] == ["tent.fly", "tent.poles"]
    assert item_of(read, "tent.poles").mass_g == 900


def test_personal_kits_and_extras(smallest: Document) -> None:
    """A kit by its id, a kit of one's own, the generic kit, and what comes on top of each."""
    bag = {"item_id": "bag", "mass": "1.5 kg", "volume": "14 L", "needed": "every_night"}
    book = {"item_id": "book", "mass": "200 g", "needed": "every_night", "up_to": "camp-1"}
    smallest["personal_kits"] = {"main": [bag]}
    smallest["roster"][0] |= {"personal_kit": "main", "extra_items": [book]}
    smallest["roster"][1]["personal_kit"] = [bag | {"mass": "2 kg"}]
    read = read_plan_request(smallest)
    owned = {
        p: [i.item_id for i in read.problem.gear if i.owner_id == p] for p in ("lead", "second")
    }
    assert owned == {"lead": ["bag", "book"], "second": ["bag"]}
    assert item_of(read, "second/bag").mass_g == 2000
    assert item_of(read, "lead/book").volume_ml == 600
    assert item_of(read, "third/sleeping-bag").need.kind is NeedKind.EVERY_NIGHT


def test_days_of_rope_teams(smallest: Document) -> None:
    """Rope teams with the same places make one visit, others their own."""
    for person, team in zip(smallest["roster"], ("a", "b", "c"), strict=True):
        person["rope_team"] = team
        person["cook_group"] = team
    carry = ["road", "camp-1", "road"]
    smallest["calendar"][0] = {"teams": {"a": carry, "b": ["road"], "c": carry}, "note": "split"}
    smallest["gear"] = []
    day = read_plan_request(smallest).problem.calendar.days[0]
    visits = [(visit.rope_team_ids, visit.places) for visit in day.visits]
    assert visits == [(("a", "c"), tuple(carry)), (("b",), ("road",))]
    assert day.note == "split"


def test_night_sets_by_height(smallest: Document) -> None:
    """Each place uses the generic set of its height band; only the sets needed are taken."""
    smallest["route"]["places"][2]["elevation"] = "3000 m"
    problem = read_plan_request(smallest).problem
    assert dict(problem.cook_groups[0].set_at) == {"road": "low", "camp-1": "low", "camp-2": "mid"}
    assert [s.set_id for s in problem.night_sets] == ["low", "mid", "storm"]


def test_storm_nights_become_reserves(smallest: Document) -> None:
    """Storm nights of a place are reserves of the storm set, next to those of the list."""
    smallest["reserves"] = [{"place": "road", "nights": 3, "kind": "base_wait", "set_id": "low"}]
    reserves = read_plan_request(smallest).problem.reserves
    assert [(r.place_id, r.kind, r.nights, r.set_id) for r in reserves] == [
        ("camp-1", ReserveKind.STORM, 1, "storm"),
        ("camp-2", ReserveKind.STORM, 2, "storm"),
        ("road", ReserveKind.BASE_WAIT, 3, "low"),
    ]


def test_options(smallest: Document) -> None:
    """A racing solve has its workers; a time limit is told to the caller of the solver."""
    smallest["options"] = {"time_limit": "2 min", "workers": 4, "racing": True, "seed": 7}
    read = read_plan_request(smallest)
    assert (read.solve_seconds, read.limits.workers, read.limits.seed) == (120.0, 4, 7)
    assert read_plan_request(smallest | {"options": {}}).solve_seconds is None


def test_reading_changes_nothing(smallest: Document) -> None:
    """The document is left as it was, also when its faults are looked behind."""
    broken = smallest | {"roster": []}
    before = copy.deepcopy(broken)
    with pytest.raises(Exception, match="faults"):
        read_plan_request(broken)
    assert broken == before


def test_same_document_same_problem(smallest: Document) -> None:
    """Reading a document twice gives the same problem."""
    first = read_plan_request(smallest)
    again = read_plan_request(copy.deepcopy(smallest))
    assert replace(first, names={}) == replace(again, names={})


def test_each_rope_team_has_its_own_of_what_there_is_enough_of(smallest: Document) -> None:
    """Of five ropes for two teams each has two, and one is anybody's; one kit is everybody's."""
    smallest["roster"][0]["rope_team"] = "east"
    smallest["roster"][1]["rope_team"] = "west"
    smallest["roster"][2]["rope_team"] = "west"
    thing = {"mass": "1 kg", "volume": "1 L", "needed": "every_trip"}
    smallest["gear"] = [
        thing | {"item_id": "rope", "name": "rope", "purpose": "rope", "count": 5},
        thing | {"item_id": "kit", "purpose": "medical_kit"},
        thing | {"item_id": "saw", "count": 2},
        thing | {"item_id": "pulleys", "purpose": "rescue_kit", "count": 2, "rope_team": "west"},
    ]
    read = read_plan_request(smallest)
    gear = [(i.item_id, i.count, i.rope_team_id) for i in read.problem.gear if i.owner_id is None]
    assert gear == [
        ("rope.east", 2, "east"),
        ("rope.west", 2, "west"),
        ("rope", 1, None),
        ("kit", 1, None),
        ("saw", 2, None),
        ("pulleys", 2, "west"),
    ]
    assert read.names["rope.west"] == "rope (west)"
    assert [
        a.pointer
        for a in read.assumptions
        if a.pointer.startswith("/gear/") and "team" in a.pointer
    ] == ["/gear/0/rope_team"]


def test_one_rope_team_has_all_of_its_kit_together(smallest: Document) -> None:
    """With one rope team nothing is parted, and two ropes are one entry of two."""
    smallest["gear"][2] |= {"purpose": "rope", "count": 2}
    read = read_plan_request(smallest)
    assert [(i.item_id, i.count) for i in read.problem.gear if i.item_id.startswith("rope")] == [
        ("rope", 2)
    ]
