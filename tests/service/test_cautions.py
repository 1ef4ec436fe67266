"""Cautions: what calls for each, and that every view, table and refusal carries them."""

import copy
import csv
import io
import json
from pathlib import Path

import pytest
from fastapi.testclient import TestClient

from service.pages import cover
from service.translate.read.requests import read_plan_request
from service.translate.write.cautions import CAUTIONS, STANDING, cautions_for
from solver.rulebook import RULES
from solver.rulebook.kinds import DECISION
from tests.service.one_night_out import REQUEST
from tests.service.translate.test_flights import by_air

VIEWS = ("loads", "stock", "caches", "manifest", "load-sheet", "purchases", "bags")
EXAMPLES = Path(__file__).parents[2] / "examples"


def _planned(caller: TestClient, document: dict) -> dict:
    return caller.post("/v1/plans", json=document, headers={"Prefer": "wait=50"}).json()


@pytest.fixture(scope="module")
def flown(caller) -> dict:
    """One night out by air, planned."""
    answer = _planned(caller, by_air())
    assert answer["outcome_kind"] == "solved"
    return answer


def told(document: dict) -> set[str]:
    """The cautions that a request calls for."""
    read = read_plan_request(document)
    return {caution.caution_id for caution in cautions_for(read.problem, read.names)}


@pytest.mark.parametrize("view", VIEWS)
def test_every_view_carries_the_cautions(caller, flown, view):
    """As JSON each view has the cautions of its plan, the same as the plan itself."""
    answer = caller.get(f"/v1/plans/{flown['plan_id']}/{view}").json()
    assert answer["cautions"] == flown["outcome"]["cautions"]
    assert answer["cautions"]


@pytest.mark.parametrize("view", ["loads", "stock", "manifest", "load-sheet", "purchases", "bags"])
def test_each_line_of_a_table_names_the_cautions(caller, flown, view):
    """As CSV each line has the ids of the cautions, whose words are a view of their own."""
    address = f"/v1/plans/{flown['plan_id']}"
    text = caller.get(f"{address}/{view}?format=csv").text
    named = {row["cautions"] for row in csv.DictReader(io.StringIO(text))}
    assert len(named) == 1
    cautions = caller.get(f"{address}/cautions").json()["cautions"]
    assert cautions == flown["outcome"]["cautions"]
    assert named.pop().split() == [caution["caution_id"] for caution in cautions]
    rows = csv.DictReader(io.StringIO(caller.get(f"{address}/cautions?format=csv").text))
    assert list(rows) == cautions


def test_the_manifest_says_what_a_pilot_asks(caller, flown):
    """Payload, seats, fuel, and that the pilot decides are on every line and in the JSON."""
    address = f"/v1/plans/{flown['plan_id']}/manifest"
    assert caller.get(address).json()["pilot"].startswith("The pilot decides on mass, fuel")
    flights = {f["flight_id"]: f for f in flown["outcome"]["plan"]["flights"]}
    rows = list(csv.DictReader(io.StringIO(caller.get(f"{address}?format=csv").text)))
    assert {row["flight_id"] for row in rows} == set(flights)
    for row in rows:
        flight = flights[row["flight_id"]]
        assert float(row["payload_kg"]) == flight["payload_kg"]
        assert int(row["seats"]) == flight["seats"]
        assert row["fuel_aboard"] == ("yes" if flight["fuel_aboard"] else "no")
        assert row["pilot"].startswith("The pilot decides")


def test_a_refusal_has_its_cautions(caller):
    """Where there is no plan the cautions can be read all the same."""
    document = copy.deepcopy(REQUEST)
    document["roster"][0] |= {"pack_cap": "1 kg"}
    answer = _planned(caller, document)
    assert answer["outcome_kind"] == "infeasible"
    told_there = caller.get(f"/v1/plans/{answer['plan_id']}/cautions").json()["cautions"]
    assert told_there == answer["outcome"]["cautions"]
    assert told_there


def test_the_rules_say_who_comes_before_them(shared_client):
    """The list of rules has the sentence that its page for people has."""
    deference = shared_client.get("/v1/rules").json()["deference"]
    assert "the physician and the licensed guide come before any rule here" in deference
    assert deference in shared_client.get("/docs/rules").text


WITH_EVERY_PLAN = {"crevasse_travel", "avalanche", "evacuation", "who_decides", "local_rules"}


def test_some_cautions_always_stand():
    """Glaciers, avalanches and evacuation defer to leader, rescue services and physician."""
    assert told(REQUEST) >= WITH_EVERY_PLAN
    texts = {c.caution_id: c.text for c in cautions_for(read_plan_request(REQUEST).problem)}
    assert "leader" in texts["crevasse_travel"]
    assert "leader" in texts["avalanche"]
    for word in ("leader", "rescue services", "physician"):
        assert word in texts["evacuation"]


def test_stoves_have_their_cautions():
    """Cook outside, never sleep with a stove lit, follow the maker, and canisters in clothing."""
    texts = {c.caution_id: c.text for c in CAUTIONS}
    assert {"carbon_monoxide", "fuel_on_skin"} <= told(REQUEST)
    for words in ("Cook outside where you can", "Never sleep with a stove lit", "Follow the maker"):
        assert words in texts["carbon_monoxide"]
    assert "never at a flame or on a stove" in texts["cold_canisters"]


@pytest.mark.parametrize(
    ("example", "gas"),
    [
        ("guided-six", False),
        ("guided-twelve", False),
        ("guided-seven", True),
        ("independent-three", True),
        ("smallest-request", False),
    ],
)
def test_gas_canisters_call_for_their_caution(example, gas):
    """Three examples burn liquid fuel alone; in the others a canister or a gas stove is listed."""
    document = json.loads((EXAMPLES / f"{example}.json").read_text(encoding="utf-8"))
    assert ("cold_canisters" in told(document)) is gas


@pytest.mark.parametrize(
    ("name", "gas"),
    [("white-gas can", False), ("230 g gas canister", True), ("Butane cartridge", True)],
)
def test_a_container_of_gas_calls_for_its_caution(name, gas):
    """The name of a container says what is in it; white gas is liquid."""
    document = copy.deepcopy(REQUEST)
    document["fuel"]["containers"][0]["name"] = name
    assert ("cold_canisters" in told(document)) is gas


def test_the_kind_of_fuel_says_what_can_be_spilt():
    """Stoves for canister gas have the caution on canisters, and none on spilt fuel."""
    document = copy.deepcopy(REQUEST)
    document["conditions"] = {"fuel_kind": "canister_gas"}
    assert "cold_canisters" in told(document)
    assert "fuel_on_skin" not in told(document)


def test_what_nobody_passes_calls_for_no_caution():
    """A place at 5000 m, a leg for sleds and a leg with crevasses, on which nobody goes."""
    document = copy.deepcopy(REQUEST)
    document["route"]["places"].append({"place_id": "top", "elevation": "5000 m"})
    (leg,) = document["route"]["legs"]
    far = {"leg_id": "far", "from": "camp", "to": "top"}
    document["route"]["legs"] = [
        leg | {"mode": "pack", "crevasse_hazard": "low"},
        leg | far | {"mode": "sled", "crevasse_hazard": "high"},
    ]
    assert not told(document) & {"altitude_illness", "sleds", "small_party"}
    document["calendar"] = [["road", "camp", "top"], ["top", "camp", "road"]]
    assert told(document) >= {"altitude_illness", "sleds", "small_party"}


def test_the_first_sheet_asks_for_cautions_that_exist():
    """Each caution that may stand on the first sheet is one of the list."""
    assert set(cover._FIRST) <= {caution.caution_id for caution in CAUTIONS}


def test_flights_call_for_the_caution_on_aircraft():
    """Flights from a place that is not called an airstrip have the caution, too."""
    assert "aircraft" not in told(REQUEST)
    assert "aircraft" in told(by_air())


def test_any_cache_calls_for_its_caution():
    """A carry to a camp where nobody sleeps that night has the caution on caches."""
    document = copy.deepcopy(REQUEST)
    document["calendar"] = [["road", "camp", "road"], ["road", "camp"], ["camp", "road"]]
    assert "caches" in told(document)
    assert "caches" not in told(REQUEST)


@pytest.mark.parametrize(("angle", "steep"), [("19.9 deg", False), ("20 deg", True)])
def test_steep_legs_call_for_their_caution(angle, steep):
    """A leg of 20 degrees at its steepest has the caution on packs, whatever its mode."""
    document = copy.deepcopy(REQUEST)
    document["route"]["legs"][0]["steepest_angle"] = angle
    assert ("steep_ground" in told(document)) is steep


def test_changes_to_reserves_come_last_and_are_a_decision():
    """Of what a refusal offers, all that touches a reserve is last, and is the leader's."""
    count = 0
    for rule in RULES:
        touches = ["reserve" in remedy for remedy in rule.instead]
        assert touches == sorted(touches), rule.rule_id
        assert touches == [remedy.startswith(DECISION) for remedy in rule.instead], rule.rule_id
        count += sum(touches)
    assert count >= 5


def test_the_examples_by_air_have_what_they_call_for():
    """Twelve people by air have the cautions on aircraft, caches, sleds and steep ground."""
    document = json.loads((EXAMPLES / "guided-twelve.json").read_text(encoding="utf-8"))
    assert told(document) >= {"aircraft", "caches", "sleds", "steep_ground", "carbon_monoxide"}


def test_cautions_that_a_plan_calls_for_come_before_the_standing_ones():
    """Those that go with every plan come last, in each example; the order is kept among them."""
    for name in ("guided-six", "guided-twelve", "independent-three"):
        document = json.loads((EXAMPLES / f"{name}.json").read_text(encoding="utf-8"))
        problem = read_plan_request(document).problem
        standing = [caution.caution_id in STANDING for caution in cautions_for(problem)]
        assert standing == sorted(standing)
        assert 0 < sum(standing) < len(standing)
