"""What a request says of gear, people, food, caches, clocks and flights reaches the problem.

The file is long because it goes through the facts of a request part by part.
"""

import copy
import json
from pathlib import Path
from typing import Any

import pytest

from service.errors import RequestFaults
from service.translate.read.requests import read_plan_request
from solver.problem import (
    CacheDanger,
    CacheSite,
    Evacuation,
    Flight,
    FlightDirection,
    Item,
    Purpose,
    ReserveKind,
)

SMALLEST = json.loads(
    (Path(__file__).parents[4] / "examples" / "smallest-request.json").read_text(encoding="utf-8")
)
Document = dict[str, Any]

NIGHT_SET = {
    "set_id": "all-heights",
    "mass": "900 g",
    "lunch": "300 g",
    "volume": "2 L",
    "energy_kcal": 3900,
}


def asked(**parts: object) -> Document:
    """The smallest request with some parts replaced."""
    return copy.deepcopy(SMALLEST) | parts


def with_lead(**facts: object) -> Document:
    """The smallest request with more said of its first person."""
    document = copy.deepcopy(SMALLEST)
    document["roster"][0] |= facts
    return document


def with_item(**facts: object) -> Document:
    """The smallest request with one more shared item."""
    document = copy.deepcopy(SMALLEST)
    thing = {"item_id": "thing", "mass": "1 kg", "volume": "1 L", "needed": "every_night"}
    document["gear"].append(thing | facts)
    return document


def with_set(**facts: object) -> Document:
    """The smallest request with one night set for all heights."""
    return asked(menu={"night_sets": [NIGHT_SET | facts]})


def with_cache(**facts: object) -> Document:
    """The smallest request with facts on a cache at its first camp."""
    document = copy.deepcopy(SMALLEST)
    document["route"]["places"][1]["cache"] = facts
    return document


def thing(document: Document) -> Item:
    """The one item called thing."""
    (item,) = (i for i in read_plan_request(document).problem.gear if i.item_id == "thing")
    return item


def faults_of(document: Document) -> list[tuple[str, str]]:
    """Pointer and code of every fault."""
    with pytest.raises(RequestFaults) as caught:
        read_plan_request(document)
    return [(fault.pointer, fault.code) for fault in caught.value.faults]


@pytest.mark.parametrize(
    ("said", "field", "read"),
    [
        ({"purpose": "stove"}, "purpose", Purpose.STOVE),
        ({"purpose": "shelter", "shelter_places": 3}, "shelter_places", 3),
        (
            {"purpose": "communicator", "communicator_kind": "satellite messenger"},
            "communicator_kind",
            "satellite messenger",
        ),
        ({"purpose": "human_waste_container", "capacity": "7999.9 mL"}, "capacity_ml", 7999),
        ({"purpose": "cold_clothing", "needed_below": "-22 degC"}, "needed_below_c", -22.0),
        ({"spoils_below": "23 degF"}, "spoils_below_c", -5.0),
        ({"length": "160.05 cm"}, "length_mm", 1601),
    ],
)
def test_what_an_item_is_good_for(said, field, read):
    """Each fact of an item is read onto the grid: capacities down, lengths up."""
    assert getattr(thing(with_item(**said)), field) == read


def test_a_personal_kit_says_what_its_items_are_good_for():
    """Items of `personal_kits` have a purpose as shared ones do, for each owner."""
    mitts = {"item_id": "thing", "mass": "200 g", "needed": "every_trip", "purpose": "mitts"}
    document = asked(personal_kits={"main": [mitts]})
    for person in document["roster"]:
        person["personal_kit"] = "main"
    gear = read_plan_request(document).problem.gear
    assert [i.owner_id for i in gear if i.purpose is Purpose.MITTS] == ["lead", "second", "third"]


def test_parts_of_one_shelter_are_one_shelter():
    """Of a tent carried in parts only the first counts as a shelter with its places."""
    parts = [{"part_id": "poles", "mass": "1 kg"}, {"part_id": "fly", "mass": "2 kg"}]
    document = with_item(mass=None, purpose="shelter", shelter_places=3, parts=parts)
    gear = [i for i in read_plan_request(document).problem.gear if i.item_id.startswith("thing.")]
    assert [(i.item_id, i.purpose, i.shelter_places) for i in gear] == [
        ("thing.poles", Purpose.SHELTER, 3),
        ("thing.fly", None, 0),
    ]


def test_the_generic_kit_has_what_a_night_and_a_travel_day_need():
    """The kit taken where none is given names bag, pads, dry layer, jackets, mitts, eyes."""
    gear = read_plan_request(copy.deepcopy(SMALLEST)).problem.gear
    assert {i.purpose for i in gear if i.owner_id == "third"} - {None} == {
        Purpose.RUCKSACK,
        Purpose.HEADLAMP,
        Purpose.FLASK,
        Purpose.GLOVES,
        Purpose.SLEEPING_BAG,
        Purpose.SLEEPING_PAD,
        Purpose.DRY_LAYER,
        Purpose.WARM_JACKET,
        Purpose.SHELL_CLOTHING,
        Purpose.MITTS,
        Purpose.SPARE_MITTS,
        Purpose.EYE_PROTECTION,
    }


@pytest.mark.parametrize(
    ("said", "field", "read"),
    [
        ({"guide": True}, "is_guide", True),
        ({"strong": True}, "is_strong", True),
        ({"load_limit": "8.0009 kg", "load_limit_reason": "bad knee"}, "load_limit_g", 8000),
        ({"load_limit": "8 kg", "load_limit_reason": "bad knee"}, "load_limit_reason", "bad knee"),
        ({"kit_to_rope_team": True}, "kit_to_rope_team", True),
        ({"diet": "vegetarian"}, "diet", "vegetarian"),
        ({"summit_water": "2500.1 mL"}, "summit_water_g", 2501),
        ({"flying_mass": "88.0001 kg"}, "flying_mass_g", 88001),
    ],
)
def test_what_a_person_is_and_may_carry(said, field, read):
    """Each fact of a person is read onto the grid: limits down, what must be carried up."""
    assert getattr(read_plan_request(with_lead(**said)).problem.roster[0], field) == read


def test_what_a_person_must_not_eat():
    """Allergens are read as they are written, each once."""
    document = with_set(contains=["milk"])
    document["roster"][0] |= {"avoids": ["peanut", "tree nut", "peanut"], "reacts_to": ["sesame"]}
    lead = read_plan_request(document).problem.roster[0]
    assert (lead.avoids, lead.reacts_to) == (("peanut", "tree nut"), ("sesame",))


@pytest.mark.parametrize(
    ("said", "field", "read"),
    [
        ({"contains": ["milk", "milk"]}, "contains", ("milk",)),
        ({"contains": []}, "contains", ()),
        ({"suits_diets": ["vegetarian"]}, "diets", ("vegetarian",)),
        ({"simmers": False}, "simmers", False),
        ({"lowest": "1000 m"}, "lowest_m", 1000),
        ({"highest": "10000 ft"}, "highest_m", 3048),
        ({"dinner_kinds": 3}, "dinner_kinds", 3),
        ({"lunch_needs_cooking": False}, "lunch_needs_cooking", False),
        ({"lunch_energy_kcal": 1500}, "lunch_kcal", 1500),
        ({"spoils_below": "-5 degC"}, "spoils_below_c", -5.0),
        ({}, "simmers", None),
        ({}, "lunch_needs_cooking", None),
        ({}, "dinner_kinds", None),
    ],
)
def test_what_a_night_set_is(said, field, read):
    """Each fact of a night set reaches the problem, and what is not said stays unsaid."""
    assert getattr(read_plan_request(with_set(**said)).problem.night_sets[0], field) == read


def test_how_full_a_container_is():
    """The capacity to the brim is a capacity, rounded down, and stays unsaid where left out."""
    can = {"container_id": "can", "content": "750 mL", "tare": "100 g", "volume": "1.2 L"}
    given = asked(fuel={"containers": [can | {"capacity": "1000.5 mL"}]})
    left_out = asked(fuel={"containers": [can]})
    (full,) = read_plan_request(given).problem.cook_groups[0].containers
    (bare,) = read_plan_request(left_out).problem.cook_groups[0].containers
    assert (full.capacity_ml, bare.capacity_ml) == (1000, None)


def test_a_reserve_for_leaving_early():
    """An evacuation reserve says for how many people of the cook group it is held."""
    wish = {"place": "camp-2", "nights": 2, "kind": "evacuation", "people": 3}
    reserve = read_plan_request(asked(reserves=[wish])).problem.reserves[-1]
    assert (reserve.kind, reserve.nights, reserve.people) == (ReserveKind.EVACUATION, 2, 3)


def test_where_waste_may_stay():
    """The land manager's leave reaches the problem, and is not taken for granted."""
    assert read_plan_request(asked(waste={"may_be_left": True})).problem.waste.may_be_left
    assert not read_plan_request(copy.deepcopy(SMALLEST)).problem.waste.may_be_left


def test_how_a_cache_is_made():
    """Depth, poles, snow, position, label and dangers are read; what is left out is not said."""
    said = {
        "depth": "110 cm",
        "poles": 2,
        "pole_above_snow": "1.8 m",
        "expected_snow": "80 cm",
        "position": True,
        "label": False,
        "dangers": ["wind_scoop"],
    }
    route = read_plan_request(with_cache(**said)).problem.route
    assert route.place("camp-1").cache == CacheSite(
        1.1, 2, 1.8, 0.8, has_position=True, has_label=False, dangers=(CacheDanger.WIND_SCOOP,)
    )
    assert read_plan_request(with_cache()).problem.route.place("camp-1").cache == CacheSite()
    assert route.place("camp-2").cache is None


def test_when_a_summit_day_starts_and_turns_round():
    """Times of the clock are hours since midnight, and stay unsaid where left out."""
    document = copy.deepcopy(SMALLEST)
    document["calendar"][3] = {
        "places": document["calendar"][3],
        "start": "06:30",
        "turn_round": "14:15",
    }
    days = read_plan_request(document).problem.calendar.days
    assert (days[3].start_hour, days[3].turn_round_hour) == (6.5, 14.25)
    assert (days[2].start_hour, days[2].turn_round_hour) == (None, None)


def test_what_a_flight_takes():
    """What a flight takes is rounded down; passengers may be named or left to the plan."""
    named = {
        "flight_id": "in-1",
        "direction": "fly_in",
        "payload": "350.0009 kg",
        "seats": 3,
        "volume": "1200 L",
        "longest": "200.09 cm",
        "people": ["lead", "third"],
        "fuel_with_people": True,
    }
    bare = {"flight_id": "out-1", "direction": "fly_out", "payload": "900 lb", "seats": 0}
    flights = read_plan_request(asked(flights=[named, bare])).problem.flights
    assert flights == (
        Flight(
            "in-1",
            FlightDirection.FLY_IN,
            350_000,
            3,
            1_200_000,
            2000,
            ("lead", "third"),
            fuel_with_people=True,
        ),
        Flight("out-1", FlightDirection.FLY_OUT, 408_233, 0),
    )


def test_who_may_have_to_leave_early():
    """A wish about leaving early names a person and a day, or every day."""
    document = asked(evacuations=[{"person": "third", "day": 4}, {"person": "lead"}])
    problem = read_plan_request(document).problem
    assert problem.evacuations == (Evacuation("third", 4), Evacuation("lead"))


FLIGHT = {"flight_id": "in-1", "direction": "fly_in", "payload": "350 kg", "seats": 3}
EVACUATION = {"place": "camp-2", "nights": 2, "kind": "evacuation"}
CAN = {"container_id": "can", "content": "750 mL", "tare": "100 g", "volume": "1.2 L"}


@pytest.mark.parametrize(
    ("document", "pointer", "code"),
    [
        (with_item(purpose="hammock"), "/gear/12/purpose", "not_a_choice"),
        (with_item(shelter_places=3), "/gear/12/shelter_places", "other_purpose"),
        (with_item(purpose="rope", capacity="8 L"), "/gear/12/capacity", "other_purpose"),
        (with_item(needed_below="-22 degC"), "/gear/12/needed_below", "other_purpose"),
        (with_item(communicator_kind="radio"), "/gear/12/communicator_kind", "other_purpose"),
        (
            with_item(purpose="communicator", communicator_kind="Radio"),
            "/gear/12/communicator_kind",
            "not_a_word",
        ),
        (with_item(length="40 m"), "/gear/12/length", "out_of_range"),
        (with_lead(load_limit="8 kg"), "/roster/0", "missing"),
        (with_lead(load_limit_reason="bad knee"), "/roster/0", "missing"),
        (with_lead(diet="Vegetarian"), "/roster/0/diet", "not_a_word"),
        (with_lead(avoids=["peanut"]), "", "contents_not_said"),
        (with_lead(flying_mass="0 kg"), "/roster/0/flying_mass", "too_small"),
        (
            with_set() | with_lead(reacts_to=["peanut"]) | {"menu": with_set()["menu"]},
            "/menu/night_sets/0",
            "contents_not_said",
        ),
        (
            with_set(lowest="3000 m", highest="2999 m"),
            "/menu/night_sets/0/highest",
            "band_upside_down",
        ),
        (
            with_set(lunch_energy_kcal=3901),
            "/menu/night_sets/0/lunch_energy_kcal",
            "parts_exceed_whole",
        ),
        (
            asked(fuel={"containers": [CAN | {"capacity": "749 mL"}]}),
            "/fuel/containers/0/capacity",
            "less_than_content",
        ),
        (asked(reserves=[EVACUATION]), "/reserves/0", "people_of_reserve"),
        (
            asked(reserves=[{"place": "camp-2", "nights": 2, "people": 3}]),
            "/reserves/0/people",
            "people_of_reserve",
        ),
        (with_cache(depth="21 m"), "/route/places/1/cache/depth", "out_of_range"),
        (with_cache(dangers=["bears"]), "/route/places/1/cache/dangers/0", "not_a_choice"),
        (
            asked(flights=[FLIGHT | {"people": ["lead", "zoe"]}]),
            "/flights/0/people/1",
            "unknown_id",
        ),
        (
            asked(flights=[FLIGHT | {"people": ["lead", "lead"]}]),
            "/flights/0/people/1",
            "flies_twice",
        ),
        (
            asked(
                flights=[
                    FLIGHT | {"people": ["lead"]},
                    FLIGHT | {"flight_id": "in-2", "people": ["lead"]},
                ]
            ),
            "/flights/1/people/0",
            "flies_twice",
        ),
        (asked(flights=[FLIGHT, FLIGHT]), "/flights/1/flight_id", "duplicate_id"),
        (asked(flights=[FLIGHT | {"payload": "0 kg"}]), "/flights/0/payload", "too_small"),
        (asked(evacuations=[{"person": "zoe"}]), "/evacuations/0/person", "unknown_id"),
        (asked(evacuations=[{"person": "lead", "day": 7}]), "/evacuations/0/day", "no_such_day"),
        (
            asked(evacuations=[{"person": "lead"}, {"person": "lead"}]),
            "/evacuations/1",
            "duplicate_id",
        ),
    ],
)
def test_faults_of_trade_facts_are_told_where_they_are(document, pointer, code):
    """One thing wrong in these facts is one fault, at its pointer, with its code."""
    assert faults_of(document) == [(pointer, code)]


@pytest.mark.parametrize(
    ("day", "pointer", "code"),
    [
        ({"start": "6:30"}, "/calendar/4/start", "not_a_time"),
        ({"start": "24:00"}, "/calendar/4/start", "not_a_time"),
        ({"turn_round": 15}, "/calendar/4/turn_round", "not_a_time"),
        (
            {"start": "07:00", "turn_round": "07:00"},
            "/calendar/4/turn_round",
            "turns_round_too_soon",
        ),
    ],
)
def test_faults_of_clocks_are_told_where_they_are(day, pointer, code):
    """A time that is none, or a turning round before the start, is one fault at its pointer."""
    document = copy.deepcopy(SMALLEST)
    document["calendar"][4] = {"places": document["calendar"][4]} | day
    assert faults_of(document) == [(pointer, code)]


def test_a_person_may_fly_in_and_out():
    """Being named on one flight in and one flight out is no fault."""
    out = FLIGHT | {"flight_id": "out-1", "direction": "fly_out"}
    document = asked(flights=[FLIGHT | {"people": ["lead"]}, out | {"people": ["lead"]}])
    assert len(read_plan_request(document).problem.flights) == 2


def test_other_cook_groups_need_not_say_what_they_eat():
    """Only the sets of cook groups in which somebody avoids something must say what they hold."""
    document = asked(
        menu={
            "night_sets": [
                NIGHT_SET | {"cook_group": "one", "contains": ["milk"]},
                NIGHT_SET | {"cook_group": "two"},
            ]
        }
    )
    for person, group in zip(document["roster"], ("one", "one", "two"), strict=True):
        person["cook_group"] = group
    document["roster"][0]["avoids"] = ["peanut"]
    assert [s.contains for s in read_plan_request(document).problem.night_sets] == [("milk",), ()]
