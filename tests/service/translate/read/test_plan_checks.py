"""Plans sent to be checked: read back, edited, and judged."""

import copy
import json
from dataclasses import replace
from typing import Any

import pytest

from api_schema.edited_plan import (
    EditedFlight,
    EditedFlyer,
    EditedLoad,
    EditedPlan,
    EditedStock,
    EditedStowed,
    EditedTrip,
)
from api_schema.flight_answer import FlightAnswer, FlyingPersonAnswer
from api_schema.load_answer import LoadAnswer, StowedAnswer, TripAnswer
from api_schema.plan_answer import PlanDocument
from api_schema.plan_check import PlanCheckAnswer
from api_schema.stock_answer import StockAnswer
from service.errors import RequestFaults
from service.jobs.desk_child import judge_plan
from service.translate.read.plan_checks import read_plan_check
from service.translate.read.requests import ReadRequest, read_plan_request
from service.translate.write.outcomes import write_outcome
from service.translate.write.verdict import causes_first, write_verdict
from solver.checker import check
from solver.plan import Finding
from tests.service.one_night_out import PLAN, REQUEST, SOLVED
from tests.service.wire import wire

FIGURES = (
    "person_id",
    "pack_kg",
    "pack_cap_kg",
    "sled_kg",
    "sled_cap_kg",
    "total_kg",
    "load_limit_kg",
    "load_fraction",
)


@pytest.fixture
def read() -> ReadRequest:
    """The request, read."""
    return read_plan_request(copy.deepcopy(REQUEST))


@pytest.fixture
def answer(read: ReadRequest) -> dict[str, Any]:
    """The answer with the plan, as a caller gets it."""
    return wire(write_outcome(SOLVED, read))


def test_plan_comes_back_as_it_went(answer: dict[str, Any]) -> None:
    """The plan of an answer, posted back whole, is the plan that was written."""
    read, plan = read_plan_check({"request": REQUEST, "plan": answer["plan"]})
    assert plan == PLAN
    assert read.reference == "booking 7"


def test_totals_that_contradict_a_load_are_not_read_and_the_right_ones_come_back(
    answer: dict[str, Any],
) -> None:
    """After an edit the old totals stand there still, so they break no rule. The loads are told."""
    told = [
        {name: load[name] for name in FIGURES}
        for trip in answer["plan"]["trips"]
        for load in trip["loads"]
    ]
    answer["plan"]["trips"][0]["loads"][0] |= {"pack_kg": 1.0, "total_kg": 2.0, "load_fraction": 0}
    verdict = wire(judge_plan({"request": REQUEST, "plan": answer["plan"]}))
    assert verdict["check"]["passed"]
    assert [{name: load[name] for name in FIGURES} for load in verdict["loads"]] == told
    assert max(load["load_fraction"] for load in told) == verdict["peak"]["load_fraction"]
    first = answer["plan"]["trips"][0]
    where = {name: first[name] for name in ("day", "step", "from", "to")}
    assert {name: verdict["loads"][0][name] for name in where} == where


def test_loads_of_a_trip_twice_are_told_once_and_of_no_trip_of_the_calendar_never(
    answer: dict[str, Any], read: ReadRequest
) -> None:
    """The findings name such trips; the answer has no more loads than the calendar."""
    trips = (replace(PLAN.trips[0], step=99), *PLAN.trips[1:], *PLAN.trips[1:])
    verdict = wire(write_verdict(read, replace(PLAN, trips=trips), (), ()))
    assert len(verdict["loads"]) == sum(len(trip["loads"]) for trip in answer["plan"]["trips"][1:])


def test_plan_without_stock_and_masses(answer: dict[str, Any]) -> None:
    """Stock can be left out, and masses of what is always the same; the check still passes."""
    plan = {"trips": answer["plan"]["trips"]}
    for unit in plan["trips"][0]["loads"][0]["sled"]:
        del unit["each_kg"], unit["each_l"]
    for trip in plan["trips"]:
        for load in trip["loads"]:
            del load["water_kg"], load["lunch_kg"]
    read, read_back = read_plan_check({"request": REQUEST, "plan": plan})
    assert read_back.trips == PLAN.trips
    assert check(read.problem, read_back).findings == ()


def test_edit_is_found(answer: dict[str, Any]) -> None:
    """Leaving the meal at the road is told by the check, with the verdict and the peak."""
    plan = {"trips": answer["plan"]["trips"]}
    del plan["trips"][0]["loads"][0]["sled"][0]
    read, edited = read_plan_check({"request": REQUEST, "plan": plan})
    report = check(read.problem, edited)
    document = wire(write_verdict(read, edited, report.findings, report.remarks))
    verdict = PlanCheckAnswer.model_validate(json.loads(json.dumps(document)))
    assert not verdict.check.passed
    assert "night_sets_held" in {finding.rule_id for finding in verdict.check.findings}
    assert verdict.peak is not None
    # The sled weighs 3.85 kg without the meal, of 16 kg: 0.240625, rounded up.
    assert verdict.peak.load_fraction == 0.2407


def test_findings_keep_where_and_how_much(read: ReadRequest) -> None:
    """A finding's amount, unit and place reach the caller."""
    finding = Finding("pack_cap_held", "too heavy", 700, "g", (("day", 1), ("person", "solo")))
    document = wire(write_verdict(read, PLAN, (finding,), ()))
    assert document["check"] == {
        "passed": False,
        "rules_checked": len(check(read.problem, PLAN).rules_checked),
        "findings": [
            {
                "rule_id": "pack_cap_held",
                "message": "too heavy",
                "amount": 700,
                "unit": "g",
                "where": {"day": 1, "person": "solo"},
                "instead": [],
            }
        ],
        "findings_left_out": 0,
        "remarks": [],
        "remarks_left_out": 0,
    }


def test_faults_of_both_halves() -> None:
    """Faults of the request and of the plan are told together, each with its half in front."""
    load = {"person_id": "solo", "pack": [{"unit_id": "rope", "count": -1}]}
    trip = {"day": 1, "step": 1, "from": "road", "to": "camp", "loads": [load]}
    with pytest.raises(RequestFaults) as caught:
        read_plan_check(
            {"request": REQUEST | {"roster": []}, "plan": {"trips": [trip]}, "planned": 1}
        )
    found = [(fault.pointer, fault.code) for fault in caught.value.faults]
    assert found == [
        ("/planned", "unknown_field"),
        ("/request/roster", "too_few"),
        ("/plan/trips/0/loads/0/pack/0/count", "too_small"),
    ]


def test_halves_that_are_not_there() -> None:
    """A document without a request or with a plan that is no object is told so."""
    with pytest.raises(RequestFaults) as caught:
        read_plan_check({"plan": []})
    found = [(fault.pointer, fault.code) for fault in caught.value.faults]
    assert found == [("", "missing"), ("/plan", "wrong_type")]
    assert caught.value.faults[0].detail == "Give the request as an object, in braces."


def test_every_mass_and_volume_can_be_left_out(answer: dict[str, Any]) -> None:
    """Items in use, opened cans and sacks are weighed by the service, in loads and in the stock."""
    plan = copy.deepcopy(answer["plan"])
    stores = [entry["units"] for entry in plan["stock"]]
    packs = [load[c] for t in plan["trips"] for load in t["loads"] for c in ("pack", "sled")]
    for unit in (unit for units in stores + packs for unit in units):
        del unit["each_kg"], unit["each_l"]
    assert read_plan_check({"request": REQUEST, "plan": plan})[1] == PLAN


@pytest.mark.parametrize(
    ("unit_id", "hint"),
    [("rop", "Did you mean rope?"), ("solo/bagg", "Did you mean solo/bag?"), ("qqq", "Known are:")],
)
def test_a_unit_that_does_not_exist_is_told_at_its_place(answer, unit_id, hint) -> None:
    """A mistyped unit_id is a fault with the one that may be meant, whatever else the plan says."""
    plan = {"trips": answer["plan"]["trips"]}
    plan["trips"][0]["loads"][0]["pack"][0]["unit_id"] = unit_id
    with pytest.raises(RequestFaults) as caught:
        read_plan_check({"request": REQUEST, "plan": plan})
    (fault,) = caught.value.faults
    assert (fault.pointer, fault.code) == ("/plan/trips/0/loads/0/pack/0/unit_id", "unknown_id")
    assert hint in fault.detail


@pytest.mark.parametrize(
    ("change", "pointer", "hint"),
    [
        (lambda plan: plan["trips"][0].update({"from": "raod"}), "/trips/0/from", "mean road?"),
        (lambda plan: plan["trips"][0].update(to="kamp"), "/trips/0/to", "mean camp?"),
        (
            lambda plan: plan["trips"][0]["loads"][0].update(person_id="sollo"),
            "/trips/0/loads/0/person_id",
            "mean solo?",
        ),
        (
            lambda plan: plan["trips"][0]["loads"][0].update(sled_id="redd"),
            "/trips/0/loads/0/sled_id",
            "mean red?",
        ),
        (lambda plan: plan["stock"][0].update(place="rod"), "/stock/0/place", "mean road?"),
        (
            lambda plan: plan.update(flights=[{"flight_id": "in"}]),
            "/flights/0/flight_id",
            "Known are: none",
        ),
    ],
)
def test_a_person_place_or_sled_that_does_not_exist_is_told_at_its_place(
    answer, change, pointer, hint
) -> None:
    """One mistyped id is one fault with the id that may be meant, and not a hundred findings."""
    plan = copy.deepcopy(answer["plan"])
    change(plan)
    with pytest.raises(RequestFaults) as caught:
        read_plan_check({"request": REQUEST, "plan": plan})
    (fault,) = caught.value.faults
    assert (fault.pointer, fault.code) == (f"/plan{pointer}", "unknown_id")
    assert hint in fault.detail


def test_unknown_fields_in_a_plan_are_faults(answer: dict[str, Any]) -> None:
    """A misspelt field of a load is told with its near name; fields of an answer are let pass."""
    plan = copy.deepcopy(answer["plan"])
    plan["trips"][0]["loads"][0]["packs"] = []
    plan["trips"][0]["loads"][0]["total_kg"] = "whatever"
    with pytest.raises(RequestFaults) as caught:
        read_plan_check({"request": REQUEST, "plan": plan})
    (fault,) = caught.value.faults
    assert (fault.pointer, fault.code) == ("/plan/trips/0/loads/0/packs", "unknown_field")
    assert "Did you mean pack" in fault.detail


def test_faults_of_the_wire_hide_no_unknown_id(answer: dict[str, Any]) -> None:
    """A misspelt field, a number in quotes and a mistyped id are told together, each once."""
    plan = {"trips": copy.deepcopy(answer["plan"]["trips"])}
    plan["trips"][0]["laods"] = plan["trips"][0].pop("loads")
    plan["trips"][0]["laods"][0]["pack"][0]["unit_id"] = "rop"
    plan["trips"][1]["step"] = "1"
    plan["trips"][1]["loads"][0]["person_id"] = "the solo"
    plan["trips"][1]["to"] = "raod"
    with pytest.raises(RequestFaults) as caught:
        read_plan_check({"request": REQUEST, "plan": plan})
    assert sorted((fault.pointer, fault.code) for fault in caught.value.faults) == [
        ("/plan/trips/0", "unknown_id"),
        ("/plan/trips/0/laods", "unknown_field"),
        ("/plan/trips/1/loads/0/person_id", "bad_id"),
        ("/plan/trips/1/step", "not_a_number"),
        ("/plan/trips/1/to", "unknown_id"),
    ]


@pytest.mark.parametrize(
    ("edited", "answered"),
    [
        (EditedStowed, StowedAnswer),
        (EditedLoad, LoadAnswer),
        (EditedTrip, TripAnswer),
        (EditedStock, StockAnswer),
        (EditedFlyer, FlyingPersonAnswer),
        (EditedFlight, FlightAnswer),
        (EditedPlan, PlanDocument),
    ],
)
def test_every_field_of_a_plan_can_be_sent_back(edited, answered) -> None:
    """Each field of an answer's plan is known where a plan is taken."""
    assert answered.model_fields.keys() <= edited.model_fields.keys()


def test_water_of_a_summit_day_counts_where_it_is_left_out() -> None:
    """A summit day has its own water; a plan that leaves water out is read with that."""
    request = copy.deepcopy(REQUEST)
    request["roster"][0]["summit_water"] = "3 L"
    request["route"]["places"][1]["kind"] = "summit"
    request["calendar"] = [["road", "camp", "road"]]
    request["route"]["legs"][0] = {"from": "road", "to": "camp", "mode": "summit"}
    trip = {"day": 1, "step": 1, "from": "road", "to": "camp"}
    plan = {"trips": [trip | {"loads": [{"person_id": "solo", "pack": []}]}]}
    request["sleds"] = []
    _, edited = read_plan_check({"request": request, "plan": plan})
    assert edited.trips[0].loads[0].water_g == 3000


def test_causes_stand_before_what_follows_from_them() -> None:
    """Findings are in the order of the expedition; a plan's own figures come last."""
    figures = Finding("units_conserved", "mass", 5, "g", (("day", 1), ("step", 1)))
    stock = Finding("units_conserved", "stock", 1, "units", (("day", 1), ("place", "camp")))
    late = Finding("pack_cap_held", "late", 5, "g", (("day", 2), ("step", 1)))
    night = Finding("night_sets_held", "night", 1, "sets", (("day", 1), ("place", "camp")))
    cause = Finding("units_conserved", "cause", 1, "units", (("day", 1), ("step", 2)))
    always = Finding("hand_overs_few", "always", 1, "units", ())
    told = causes_first([figures, stock, always, late, night, cause])
    assert told == [cause, night, late, always, figures, stock]


def test_a_count_of_nothing_takes_a_line_off(answer: dict[str, Any]) -> None:
    """A unit whose count an editor sets to 0 is read as not there."""
    plan = copy.deepcopy(answer["plan"])
    line = plan["trips"][0]["loads"][0]["pack"][0]
    line["count"] = 0
    del plan["stock"]
    _, edited = read_plan_check({"request": REQUEST, "plan": plan})
    left = [stowed.unit_id for stowed in edited.trips[0].loads[0].pack]
    assert line["unit_id"] not in left
    assert all(stowed.count > 0 for stowed in edited.trips[0].loads[0].pack)
