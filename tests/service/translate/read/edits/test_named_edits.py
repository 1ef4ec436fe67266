"""Named edits of a request, each by itself."""

import copy
import json
from pathlib import Path

import pytest
from pydantic import TypeAdapter

from api_schema.named_edit import NamedEdit
from service.errors import Fault
from service.translate.read.edits.named_edits import Editing, do_edit
from service.translate.read.edits.nodes import grown, origin_of, plain
from service.translate.read.requests import read_plan_request
from solver.problem import Direction, LegMode

EXAMPLES = Path(__file__).parents[5] / "examples"
SIX = json.loads((EXAMPLES / "guided-six.json").read_text(encoding="utf-8"))
EDIT = TypeAdapter(NamedEdit)
NEWCOMER = SIX["roster"][5] | {"person_id": "client-5"}


def done(edit: dict, document: dict = SIX) -> tuple[str | Fault, dict]:
    """What an edit did to a request, and the request after it."""
    root = grown(document, "/base")
    people = {"client-5": grown(NEWCOMER, "/people/0")}
    told = do_edit(EDIT.validate_python(edit), Editing(root, people, edit, "/variants/2/edits/0"))
    return told, plain(root)


def test_without_takes_the_person_off_as_a_request_does():
    """The edit writes the request's own field, so that all that names the person goes too."""
    told, after = done({"edit": "without", "person_id": "client-2"})
    assert told == "roster 6 -> 5"
    assert after == {**SIX, "without": ["client-2"]}


def test_add_takes_a_person_from_the_list():
    """The newcomer stands last on the roster, written where the list is."""
    told, after = done({"edit": "add", "person_id": "client-5"})
    assert told == "roster 6 -> 7"
    assert after["roster"][6] == NEWCOMER
    assert "client-5" in {p.person_id for p in read_plan_request(after).problem.roster}


def test_one_cap_changes_the_caps_by_mode_in_proportion():
    """A tenth less on the pack is a tenth less in every mode, to the gram rounded down."""
    told, after = done({"edit": "cap", "person_id": "guide-1", "pack_cap": "27 kg"})
    assert told == "guide-1: pack_cap 30 kg -> 27 kg"
    before, now = (read_plan_request(d).problem.person("guide-1").caps for d in (SIX, after))
    assert now.pack_g == 27_000
    for mode in LegMode:
        for direction in Direction:
            share = now.pack_on(mode, direction) / before.pack_on(mode, direction)
            assert share == pytest.approx(0.9, abs=1e-4)
    assert now.total_g == before.total_g


def test_a_sled_cap_alone_leaves_the_pack_caps():
    """Only what is given changes."""
    _, after = done({"edit": "cap", "person_id": "guide-1", "sled_cap": "35 kg"})
    expected = copy.deepcopy(SIX)
    expected["roster"][0]["sled_cap"] = "35 kg"
    assert after == expected


def test_counts_change_and_none_leaves_the_item_out():
    """Three stoves become two; a count of 0 takes the item off the list."""
    told, after = done({"edit": "count", "item_id": "stove", "count": 2})
    assert told == "stove 3 -> 2"
    assert next(i for i in after["gear"] if i["item_id"] == "stove")["count"] == 2
    _, after = done({"edit": "count", "item_id": "stove", "count": 0})
    assert "stove" not in {item["item_id"] for item in after["gear"]}


def test_a_storm_reserve_is_the_places_storm_nights():
    """The high camp holds three nights in place of two; 0 takes the reserve away."""
    told, after = done({"edit": "reserve", "place": "camp-5", "nights": 3})
    assert told == "storm reserve at camp-5 2 -> 3 nights"
    place = next(p for p in after["route"]["places"] if p["place_id"] == "camp-5")
    assert place["storm_nights"] == 3
    _, after = done({"edit": "reserve", "place": "camp-5", "nights": 0})
    assert "storm_nights" not in next(
        p for p in after["route"]["places"] if p["place_id"] == "camp-5"
    )


def test_another_reserve_replaces_the_one_of_its_kind():
    """A descent reserve of two nights replaces the one of one night, and no other."""
    document = {
        **SIX,
        "reserves": [
            {"place": "camp-3", "nights": 1, "kind": "descent"},
            {"place": "camp-3", "nights": 1, "kind": "evacuation", "people": 3},
        ],
    }
    edit = {"edit": "reserve", "place": "camp-3", "nights": 2, "kind": "descent"}
    told, after = done(edit, document)
    assert told == "descent reserve at camp-3 1 -> 2 nights"
    assert {r["kind"]: r["nights"] for r in after["reserves"]} == {"evacuation": 1, "descent": 2}
    _, after = done(edit | {"kind": "evacuation"}, document)
    assert after["reserves"][1] == {
        "place": "camp-3",
        "kind": "evacuation",
        "nights": 2,
        "people": 3,
    }


def test_calendar_and_start_date_are_replaced():
    """The new calendar and date stand in the request, and the words say from what to what."""
    told, after = done({"edit": "calendar", "calendar": [["strip"], ["strip"]]})
    assert (told, after["calendar"]) == ("calendar 19 days -> 2 days", [["strip"], ["strip"]])
    told, after = done({"edit": "start_date", "start_date": "2027-05-22"})
    assert (told, after["start_date"]) == ("start date 2027-05-20 -> 2027-05-22", "2027-05-22")


def test_a_sled_is_replaced_added_or_taken_away():
    """Sleds are found by their id."""
    sled = {"sled_id": "sled-6", "hauler": "client-4", "mass_limit": "20 kg"}
    told, after = done({"edit": "sled", "sled_id": "sled-6", "sled": sled})
    assert told == "sleds 6 -> 6"
    assert after["sleds"][5] == sled
    told, after = done({"edit": "sled", "sled_id": "sled-6"})
    assert told == "sleds 6 -> 5"
    assert "sled-6" not in {one["sled_id"] for one in after["sleds"]}


@pytest.mark.parametrize(
    ("edit", "field", "code"),
    [
        ({"edit": "without", "person_id": "nobody"}, "/person_id", "unknown_id"),
        ({"edit": "add", "person_id": "nobody"}, "/person_id", "unknown_id"),
        ({"edit": "cap", "person_id": "nobody", "pack_cap": "1 kg"}, "/person_id", "unknown_id"),
        ({"edit": "cap", "person_id": "guide-1"}, "", "missing"),
        ({"edit": "count", "item_id": "nothing", "count": 1}, "/item_id", "unknown_id"),
        ({"edit": "reserve", "place": "nowhere", "nights": 1}, "/place", "unknown_id"),
        ({"edit": "sled", "sled_id": "none"}, "/sled_id", "unknown_id"),
        (
            {"edit": "sled", "sled_id": "a", "sled": {"sled_id": "b", "hauler": "guide-1"}},
            "/sled_id",
            "other_id",
        ),
    ],
)
def test_an_edit_of_what_is_not_there_is_a_fault_at_the_edit(edit, field, code):
    """The fault points to the edit that the caller wrote, and the request stays as it is."""
    told, after = done(edit)
    assert isinstance(told, Fault)
    assert (told.pointer, told.code) == (f"/variants/2/edits/0{field}", code)
    assert after == SIX


def test_an_id_that_is_not_there_is_told_with_the_one_that_may_be_meant():
    """A mistyped id of an edit is asked back with the nearest that the request has."""
    told, _ = done({"edit": "sled", "sled_id": "sled6"})
    assert isinstance(told, Fault)
    assert told.detail.startswith("There is no sled sled6. Did you mean sled-6? Known are: ")


def test_sleds_that_are_not_listed_cannot_be_edited():
    """With generic sleds for all there is no list to change."""
    document = {name: part for name, part in SIX.items() if name != "sleds"}
    told, _ = done({"edit": "sled", "sled_id": "sled-6"}, document)
    assert isinstance(told, Fault)
    assert told.code == "missing"


def test_what_an_edit_wrote_is_found_at_the_edit():
    """The changed cap was written in the edit, everything else in the base."""
    root = grown(SIX, "/base")
    edit = {"edit": "cap", "person_id": "guide-1", "pack_cap": "27 kg"}
    do_edit(EDIT.validate_python(edit), Editing(root, {}, edit, "/variants/0/edits/1"))
    assert origin_of(root, "/roster/0/pack_cap") == "/variants/0/edits/1/pack_cap"
    assert origin_of(root, "/roster/0/water") == "/base/roster/0/water"
