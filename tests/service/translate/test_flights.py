"""Flights from request to manifest, and back into a check, on one night out by air."""

import copy
import csv
import io
import json
import time
from dataclasses import replace

import pytest

from api_schema.plan_answer import SolvedAnswer
from api_schema.plan_resource import ManifestAnswer
from service.jobs.desk_child import judge_plan
from service.translate.read.plan_checks import read_plan_check
from service.translate.read.requests import read_plan_request
from service.translate.write.plan import write_plan
from solver.plan import FlightLoad, Stowed
from tests.service.one_night_out import PLAN, REQUEST
from tests.service.wire import wire

KIT = (
    {"item_id": "tent", "purpose": "shelter", "shelter_places": 2},
    {"item_id": "shovel", "purpose": "shovel"},
    {"item_id": "stove", "purpose": "stove"},
    {"item_id": "pot", "purpose": "pot"},
    {"item_id": "radio", "purpose": "communicator", "communicator_kind": "radio"},
    {"item_id": "first-aid", "purpose": "medical_kit"},
)
PIECE = {"mass": "500 g", "volume": "1 L", "needed": "every_night"}
FUEL_FLIGHT = {
    "flight_id": "in-1",
    "direction": "fly_in",
    "payload": "60 kg",
    "seats": 0,
    "loaded_by_operator": True,
    "volume": "500 L",
}
FLIGHTS = [
    FUEL_FLIGHT,
    {"flight_id": "in-2", "direction": "fly_in", "payload": "90 kg", "seats": 2},
    {
        "flight_id": "out-1",
        "direction": "fly_out",
        "payload": "200 kg",
        "seats": 2,
        "fuel_with_people": True,
    },
]


def by_air() -> dict:
    """One night out with kit for two at the strip, cargo first, and one flight home."""
    document = copy.deepcopy(REQUEST)
    document["roster"][0]["flying_mass"] = "80 kg"
    document["gear"] += [PIECE | piece for piece in KIT]
    document["flights"] = copy.deepcopy(FLIGHTS)
    document["rules"] = {"numbers": {"first_flight_nights": 1}}
    return document


@pytest.fixture(scope="module")
def plan_id(caller) -> str:
    """The plan of the night out by air, solved."""
    answer = caller.post("/v1/plans", json=by_air(), headers={"Prefer": "wait=30"}).json()
    until = time.monotonic() + 30
    while answer["state"] not in ("done", "failed") and time.monotonic() < until:
        time.sleep(0.1)
        answer = caller.get(f"/v1/plans/{answer['plan_id']}").json()
    assert answer["outcome_kind"] == "solved", answer["outcome"]
    return answer["plan_id"]


@pytest.fixture(scope="module")
def outcome(caller, plan_id) -> dict:
    """The solved outcome."""
    return caller.get(f"/v1/plans/{plan_id}").json()["outcome"]


def test_the_answer_matches_its_schema(outcome):
    """A solved answer with flights is what its schema says, and nothing is lost on the way."""
    assert json.loads(SolvedAnswer.model_validate(outcome).model_dump_json()) == outcome


def test_flights_stand_in_the_order_of_the_request(outcome):
    """Each flight of the request has its line, with what it may take."""
    told = [
        (f["flight_id"], f["direction"], f["payload_kg"], f["seats"], f["volume_l"])
        for f in outcome["plan"]["flights"]
    ]
    assert told == [
        ("in-1", "fly_in", 60.0, 0, 500.0),
        ("in-2", "fly_in", 90.0, 2, None),
        ("out-1", "fly_out", 200.0, 2, None),
    ]


def test_people_and_cargo_add_up(outcome):
    """Mass and volume of a flight are those of its people and units, within the payload."""
    for flight in outcome["plan"]["flights"]:
        units = flight["units"]
        assert flight["cargo_kg"] == pytest.approx(sum(u["count"] * u["each_kg"] for u in units))
        assert flight["cargo_l"] == pytest.approx(sum(u["count"] * u["each_l"] for u in units))
        assert flight["people_kg"] == pytest.approx(sum(p["kg"] for p in flight["people"]))
        lifted_kg = flight["people_kg"] + flight["cargo_kg"]
        share = lifted_kg / flight["payload_kg"]
        assert share <= flight["load_fraction"] < share + 0.0001 + 1e-9
        assert flight["load_fraction"] <= 1


def test_a_person_flies_as_weighed_with_the_first_lunch_on_the_way_in(outcome):
    """80 kg as weighed and 0.3 kg of lunch fly in, 80 kg fly home."""
    told = {f["flight_id"]: f["people"] for f in outcome["plan"]["flights"]}
    assert told == {
        "in-1": [],
        "in-2": [{"person_id": "solo", "kg": 80.3}],
        "out-1": [{"person_id": "solo", "kg": 80.0}],
    }


def test_what_is_taken_along_flies_in(outcome):
    """The units of the flights in are those that stand at the start, and the sled."""
    plan = outcome["plan"]
    flown = {}
    for flight in plan["flights"][:2]:
        for unit in flight["units"]:
            flown[unit["unit_id"]] = flown.get(unit["unit_id"], 0) + unit["count"]
    taken = {unit["unit_id"]: unit["count"] for unit in plan["taken_along"]}
    assert flown == {**taken, "sled/red": 1}


def test_fuel_is_told_where_it_is_aboard(outcome):
    """The flight with the can says so, full on the way in and open on the way home."""
    for flight in outcome["plan"]["flights"]:
        cans = [u for u in flight["units"] if u["unit_id"].startswith("all/can")]
        assert flight["fuel_aboard"] == bool(cans)
    assert [f["fuel_aboard"] for f in outcome["plan"]["flights"]] == [True, False, True]


def test_fuel_in_the_gear_is_fuel_aboard():
    """A canister among the gear makes a flight one with fuel, the tent beside it does not."""
    document = by_air()
    document["gear"].append(PIECE | {"item_id": "gas", "purpose": "fuel"})
    read = read_plan_request(document)
    loads = tuple(
        FlightLoad(flight_id, (), (Stowed(unit_id, 1, 500, 1_000),))
        for flight_id, unit_id in (("in-1", "gas"), ("in-2", "tent"))
    )
    written = write_plan(read, replace(PLAN, flights=loads))
    assert [flight.fuel_aboard for flight in written.flights] == [True, False]


def test_the_plan_comes_back_as_it_went(outcome):
    """Posted back whole, the plan's flights pass the check of everything."""
    _, plan = read_plan_check({"request": by_air(), "plan": outcome["plan"]})
    assert [f.flight_id for f in plan.flights] == ["in-1", "in-2", "out-1"]
    verdict = wire(judge_plan({"request": by_air(), "plan": outcome["plan"]}))
    assert verdict["check"] == outcome["check"]


def test_flights_need_no_masses_where_the_request_settles_them(outcome):
    """Units of a flight may be sent without mass and volume, outside things and sleds included."""
    bare = copy.deepcopy(outcome["plan"])
    for flight in bare["flights"][:2]:
        for unit in flight["units"]:
            del unit["each_kg"], unit["each_l"]
    whole = read_plan_check({"request": by_air(), "plan": outcome["plan"]})[1]
    assert read_plan_check({"request": by_air(), "plan": bare})[1] == whole


def test_a_unit_left_behind_is_found(outcome):
    """A flight edited by hand that leaves the tent behind is judged, with the unit named."""
    edited = copy.deepcopy(outcome["plan"])
    for flight in edited["flights"][:2]:
        flight["units"] = [u for u in flight["units"] if u["unit_id"] != "tent"]
    check = wire(judge_plan({"request": by_air(), "plan": edited}))["check"]
    assert "everything_flies_once" in {finding["rule_id"] for finding in check["findings"]}
    assert any("tent" in finding["message"] for finding in check["findings"])


def test_the_manifest_is_the_plans_flights(caller, plan_id, outcome):
    """As JSON the manifest has the flights of the plan, whole."""
    answer = caller.get(f"/v1/plans/{plan_id}/manifest")
    ManifestAnswer.model_validate_json(answer.content)
    assert answer.json()["flights"] == outcome["plan"]["flights"]


def test_the_manifest_as_csv_adds_up_to_what_is_lifted(caller, plan_id, outcome):
    """In the CSV the lines of a flight sum to its people and cargo."""
    text = caller.get(f"/v1/plans/{plan_id}/manifest?format=csv").text
    sums = {}
    for row in csv.DictReader(io.StringIO(text)):
        sums[row["flight_id"]] = sums.get(row["flight_id"], 0) + float(row["kg"])
    assert sums == pytest.approx(
        {f["flight_id"]: f["people_kg"] + f["cargo_kg"] for f in outcome["plan"]["flights"]}
    )


def test_a_plan_without_flights_has_an_empty_manifest(caller):
    """Without flights the manifest is an empty list, and as CSV its header alone."""
    headers = {"Prefer": "wait=30"}
    plan = caller.post("/v1/plans", json=REQUEST, headers=headers).json()
    assert plan["outcome_kind"] == "solved"
    address = f"/v1/plans/{plan['plan_id']}/manifest"
    assert caller.get(address).json()["flights"] == []
    assert len(caller.get(f"{address}?format=csv").text.splitlines()) == 1


@pytest.mark.parametrize("view", ["loads", "stock", "caches", "manifest"])
def test_every_view_carries_the_cautions_of_the_plan(caller, plan_id, outcome, view):
    """A view has the plan's cautions before all else; in CSV each row points to them by id."""
    address = f"/v1/plans/{plan_id}/{view}"
    told = caller.get(address).json()
    assert told["cautions"] == outcome["cautions"]
    assert list(told)[:3] == ["plan_id", "reference", "cautions"]
    assert told["cautions"][0]["caution_id"] == "glacier_rules_not_asked"
    table = list(csv.DictReader(io.StringIO(caller.get(f"{address}?format=csv").text)))
    ids = " ".join(caution["caution_id"] for caution in outcome["cautions"])
    assert {row["cautions"] for row in table} == ({ids} if table else set())
    assert table or view == "caches"
