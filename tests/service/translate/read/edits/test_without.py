"""People taken off a request by one field, with all that is theirs."""

import copy
import json
from pathlib import Path

import pytest

from service.errors import RequestFaults
from service.translate.read.edits.edited_request import request_to_compare, with_edits_done
from service.translate.read.edits.look_again import counts_that_stay
from service.translate.read.edits.nodes import grown, plain
from service.translate.read.edits.without import take_off
from service.translate.read.requests import read_plan_request

EXAMPLES = Path(__file__).parents[5] / "examples"


def example(name: str) -> dict:
    """One of the example requests."""
    return json.loads((EXAMPLES / f"{name}.json").read_text(encoding="utf-8"))


SIX = example("guided-six")
SMALLEST = example("smallest-request")


def two_ropes() -> dict:
    """The smallest request with a rope team and a kitchen of the third person's own."""
    document = copy.deepcopy(SMALLEST)
    document["roster"][2] |= {"rope_team": "b", "cook_group": "alone", "guide": True}
    document["sleds"] = [{"sled_id": "one", "hauler": "third", "second_hauler": "second"}]
    document["gear"] += [
        {"item_id": "thin-rope", "mass": "2 kg", "needed": "every_trip", "rope_team": "b"},
        {"item_id": "flag", "mass": "20 g", "needed": "every_trip", "keeper": "third"},
    ]
    document["calendar"][0] = {"teams": {"team": ["road"], "b": ["road"]}}
    document["flights"] = [
        {
            "flight_id": "in",
            "direction": "fly_in",
            "payload": "1 kg",
            "seats": 1,
            "people": ["third"],
        }
    ]
    document["evacuations"] = [{"person": "third", "day": 3}, {"person": "lead"}]
    document["fuel"] = {
        "containers": [
            {
                "container_id": "own",
                "cook_group": "alone",
                "content": "1 L",
                "tare": "1 g",
                "volume": "1 L",
                "count": 2,
            },
            {"container_id": "all", "content": "1 L", "tare": "1 g", "volume": "1 L", "count": 3},
        ]
    }
    document["reserves"] = [
        {"place": "camp-1", "nights": 1, "kind": "evacuation", "people": 2, "cook_group": "all"},
        {"place": "camp-1", "nights": 1, "cook_group": "alone"},
    ]
    return document


def faults(document: dict) -> dict[str, str]:
    """Pointer and code of each fault of a request."""
    try:
        read_plan_request(document)
    except RequestFaults as error:
        return {fault.pointer: fault.code for fault in error.faults}
    return {}


def test_a_person_leaves_with_sled_kit_and_name():
    """Without one client of six, nothing in the whole problem names that client or their sled."""
    problem = read_plan_request({**SIX, "without": ["client-2"]}).problem
    assert [p.person_id for p in problem.roster] == [
        p["person_id"] for p in SIX["roster"] if p["person_id"] != "client-2"
    ]
    assert "client-2" not in repr(problem)
    assert "sled-4" not in repr(problem)


def test_the_edit_says_the_same_as_a_request_written_without_the_person():
    """The problem is the one of a request in which the person never stood."""
    by_hand = copy.deepcopy(SIX)
    by_hand["roster"] = [p for p in SIX["roster"] if p["person_id"] != "client-2"]
    by_hand["sleds"] = [s for s in SIX["sleds"] if s["hauler"] != "client-2"]
    edited = read_plan_request({**SIX, "without": ["client-2"]})
    assert edited.problem == read_plan_request(by_hand).problem


def test_what_an_emptied_team_and_kitchen_own_is_left_out():
    """Gear, ways, containers and reserves of a rope team and cook group without people are gone."""
    document = with_edits_done({**two_ropes(), "without": ["third"]}).document
    assert "third" not in json.dumps({**document, "sleds": []})
    assert document["calendar"][0] == {"teams": {"team": ["road"]}}
    assert "thin-rope" not in json.dumps(document["gear"])
    assert [c["container_id"] for c in document["fuel"]["containers"]] == ["all"]
    assert [r["cook_group"] for r in document["reserves"]] == ["all"]
    assert document["flights"][0]["people"] == []
    assert document["evacuations"] == [{"person": "lead"}]


def test_a_menu_that_nobody_is_left_with_is_left_out():
    """The night sets of a menu go with the last person who has it, and not before."""
    document = copy.deepcopy(SMALLEST)
    for person in document["roster"][1:]:
        person["menu"] = "vegetarian"
    document["menu"] = {"night_sets": [{"set_id": "a"}, {"set_id": "b", "menu": "vegetarian"}]}
    for names, left in ((["third"], ["a", "b"]), (["second", "third"], ["a"])):
        edited = with_edits_done({**document, "without": names}).document
        assert [one["set_id"] for one in edited["menu"]["night_sets"]] == left


def test_loads_of_a_former_plan_are_no_part_of_what_is_compared():
    """Of plans to stay near to and to begin from, the names are compared, and no loads."""
    near, start = {"plan_id": "p", "trips": [1, 2]}, {"plan_id": "q", "plan": {"trips": []}}
    options = {"seed": 1, "near_plan": near, "start_plan": start}
    told = request_to_compare({**SMALLEST, "options": options})
    named = {"near_plan": {"plan_id": "p"}, "start_plan": {"plan_id": "q"}}
    assert told["options"] == {"seed": 1, **named}
    assert request_to_compare(SMALLEST) == SMALLEST


def test_a_sled_for_two_goes_on_with_the_one_who_stays():
    """The second hauler hauls the sled alone, and that is to be looked at."""
    edited = with_edits_done({**two_ropes(), "without": ["third"]})
    assert edited.document["sleds"] == [{"sled_id": "one", "hauler": "second"}]
    assert "whether second can haul sled one alone" in edited.notes[1].value


def test_a_sled_stays_at_home_where_the_other_may_not_haul():
    """A second hauler without a sled cap cannot take it on."""
    document = two_ropes()
    del document["roster"][1]["sled_cap"]
    edited = with_edits_done({**document, "without": ["third"]})
    assert edited.document["sleds"] == []
    assert "sled one stays at home" in edited.notes[0].value


def test_given_counts_stay_and_are_named():
    """Counts of gear, containers and evacuation reserves are as given, and listed for a look."""
    edited = with_edits_done({**two_ropes(), "without": ["third"]})
    assert edited.document["gear"][1]["count"] == 2
    for words in (
        "2 x stove",
        "3 x all",
        "an evacuation reserve for 2 at camp-1",
        "guides: 0 left",
    ):
        assert words in edited.notes[1].value
    assert "2 x own" not in edited.notes[1].value


def test_parts_that_cannot_be_read_stay_as_they_are():
    """A roster, a calendar and sleds of the wrong form are left for the reader to complain of."""
    odd = {
        "roster": {"0": 1},
        "sleds": 3,
        "calendar": [7, {"teams": []}],
        "menu": None,
        "gear": ["x"],
    }
    root = grown(odd)
    assert take_off(root, frozenset({"lead"})).done == []
    assert plain(root) == odd


def test_nothing_given_leaves_nothing_to_look_at():
    """A request that gives no count above one has none to name."""
    assert counts_that_stay(grown({"gear": [{"item_id": "tent", "count": 1}]})) == []


def test_counts_that_follow_from_people_shrink():
    """Without a third of the people the night sets taken are a third fewer."""
    whole, fewer = (
        read_plan_request({**SMALLEST, "without": names}).problem for names in ([], ["third"])
    )
    assert len(whole.members("all")) == 3
    assert len(fewer.members("all")) == 2
    assert {i.owner_id for i in fewer.gear if i.owner_id} == {"lead", "second"}


def test_the_assumptions_say_what_was_done():
    """The first assumptions are what the edit did and what to look at, at the field that asked."""
    told = read_plan_request({**SIX, "without": ["client-2"]}).assumptions[:2]
    assert [a.pointer for a in told] == ["/without", "/without"]
    assert "sled sled-4 stays at home" in told[0].value
    assert "rope team rope-1: 2 people" in told[1].value
    assert {a.source for a in told} == {"given in the request"}


def test_faults_and_assumptions_point_into_what_was_written():
    """With the first of six gone, a fault of the third still points to the third."""
    document = copy.deepcopy(SIX)
    del document["roster"][2]["water"]
    document["without"] = ["guide-1"]
    read = read_plan_request(document)
    assert "/roster/2/water" in {a.pointer for a in read.assumptions}
    assert read.pointer_of(("roster", 1, "caps")) == "/roster/2"
    document["roster"][2]["pack_cap"] = "27"
    assert faults(document) == {"/roster/2/pack_cap": "no_unit"}


@pytest.mark.parametrize(
    ("names", "expected"),
    [
        (["nobody"], {"/without/0": "unknown_id"}),
        (["third", "third"], {"/without/1": "duplicate_id"}),
        (["lead", "second", "third"], {"/without": "nobody_left"}),
        ("third", {"/without": "wrong_type"}),
        ([3], {"/without/0": "wrong_type"}),
        (["../x"], {"/without/0": "bad_id"}),
    ],
)
def test_a_list_that_cannot_be_done_is_a_fault(names, expected):
    """Unknown and repeated names, everybody, and what is no list of ids are refused in place."""
    assert faults({**SMALLEST, "without": names}) == expected


def test_a_name_of_nobody_is_told_with_the_one_that_may_be_meant():
    """A mistyped person is asked back with the nearest of the roster."""
    (fault,) = with_edits_done({**SMALLEST, "without": ["thrid"]}).faults
    assert fault.detail == (
        "There is no person thrid. Did you mean third? Known are: lead, second, third."
    )


def test_bags_are_packed_for_those_who_are_left():
    """Without one client of a kitchen of four, its bags hold three sets, and an assumption says so.

    The other kitchens keep theirs.
    """
    read = read_plan_request({**example("guided-twelve"), "without": ["client-1"]})
    per_bag = {s.unit_id: s.sets_per_bag for s in read.problem.night_sets}
    assert (per_bag["kitchen-1/low"], per_bag["kitchen-2/low"]) == (3, 4)
    told = [a.value for a in read.assumptions if a.pointer == "/without"]
    assert "bags of kitchen-1, night sets in each 4 -> 3: low, mid, high" in told[0]
