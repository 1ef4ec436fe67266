"""Outcomes written as answers, on a plan small enough to add up by hand, and plans read back."""

import copy
import datetime as dt
import json
from dataclasses import replace
from typing import Any

import pytest

from api_schema.plan_answer import (
    FailedAnswer,
    InfeasibleAnswer,
    NoPlanInTimeAnswer,
    SolvedAnswer,
)
from api_schema.plan_check import PlanCheckAnswer
from service.errors import RequestFaults
from service.translate.days import date_of, kind_of
from service.translate.outcomes import write_check, write_failure, write_outcome
from service.translate.plan_checks import read_plan_check
from service.translate.requests import ReadRequest, read_plan_request
from solver.checker import check
from solver.outcome import Conflict, Infeasible, NoPlanInTime, Solved, SolveRecord
from solver.plan import Finding, GoalValue, Load, NightStock, Plan, Stowed, TripLoads
from solver.problem import Day, Visit
from tests.problem.small_world import small_world

REQUEST: dict[str, Any] = {
    "reference": "booking 7",
    "title": "One night out",
    "start_date": "2028-02-28",
    "route": {
        "places": [
            {"place_id": "road", "elevation": "1000 m"},
            {"place_id": "camp", "elevation": "1500 m"},
        ],
        "legs": [{"from": "road", "to": "camp", "mode": "sled", "sled_factor_up": "80 %"}],
    },
    "calendar": [["road", "camp"], ["camp", "road"]],
    "roster": [
        {
            "person_id": "solo",
            "pack_cap": "20 kg",
            "sled_cap": "20 kg",
            "total_cap": "30 kg",
            "water": "1 L",
            "first_lunch": "300 g",
            "personal_kit": [
                {"item_id": "bag", "mass": "1.5 kg", "volume": "10 L", "needed": "every_night"}
            ],
        }
    ],
    "sleds": [
        {
            "sled_id": "red",
            "hauler": "solo",
            "tare": "3 kg",
            "mass_limit": "20 kg",
            "volume": "90 L",
        }
    ],
    "gear": [
        {
            "item_id": "rope",
            "name": "glacier rope",
            "mass": "3 kg",
            "volume": "5 L",
            "needed": "every_trip",
            "in_use_on": ["sled"],
        }
    ],
    "menu": {
        "night_sets": [
            {
                "set_id": "meal",
                "mass": "1 kg",
                "packaging": "100 g",
                "lunch": "400 g",
                "volume": "2 L",
                "fuel": "200 mL",
                "energy_kcal": 4000,
            }
        ]
    },
    "fuel": {
        "density": "0.7 kg/L",
        "margin": "10 %",
        "containers": [
            {
                "container_id": "can",
                "name": "can",
                "content": "1 L",
                "tare": "150 g",
                "volume": "1.1 L",
            }
        ],
    },
    "waste": {"per_person_night": "0 g", "trash_density": "0.2 kg/L"},
}

BAG = Stowed("solo/bag", 1, 1500, 10_000)
ROPE = Stowed("rope", 1, 3000, 5_000)
ROPE_IN_USE = Stowed("rope", 1, 0, 0)
MEAL = Stowed("all/meal", 1, 1000, 2_000)
CAN = Stowed("all/can", 1, 850, 1_100)
# The night burns 200 mL and 10 %; 780 mL are left, 546 g at 0.7 kg/L, in a can of 150 g.
OPEN_CAN = Stowed("all/can/open-1", 1, 696, 1_100)
TRASH = Stowed("trash/camp/1-1", 1, 100, 500)

PLAN = Plan(
    trips=(
        TripLoads(
            1, 1, "road", "camp", (Load("solo", 1000, 300, (BAG, ROPE_IN_USE), "red", (MEAL, CAN)),)
        ),
        TripLoads(
            2,
            1,
            "camp",
            "road",
            (Load("solo", 1000, 400, (BAG, ROPE_IN_USE, TRASH), "red", (OPEN_CAN,)),),
        ),
    ),
    stock=(
        NightStock(0, "road", (BAG, ROPE, MEAL, CAN)),
        NightStock(1, "camp", (BAG, ROPE, OPEN_CAN, TRASH)),
        NightStock(2, "road", (BAG, ROPE, OPEN_CAN, TRASH)),
    ),
)
RECORD = SolveRecord("by hand", 0, 0, (("all", 0.25),))
SOLVED = Solved(
    PLAN, (GoalValue("peak_load", 3032, 3000, proven=False, unit="1/10,000"),), 3200, RECORD
)


@pytest.fixture
def read() -> ReadRequest:
    """The request, read."""
    return read_plan_request(copy.deepcopy(REQUEST))


@pytest.fixture
def answer(read: ReadRequest) -> dict[str, Any]:
    """The answer with the plan, as a caller gets it."""
    return json.loads(json.dumps(write_outcome(SOLVED, read), allow_nan=False))


def test_plan_made_by_hand_passes(read: ReadRequest) -> None:
    """The plan of these tests is one that the independent check has nothing against."""
    assert check(read.problem, PLAN).findings == ()


def test_answer_matches_its_schema(answer: dict[str, Any]) -> None:
    """A solved answer is what its schema says, and nothing is lost on the way."""
    assert json.loads(SolvedAnswer.model_validate(answer).model_dump_json()) == answer


def test_loads_add_up(answer: dict[str, Any]) -> None:
    """Water, lunch, sled tare and all units are in the gross loads, what is in use is not."""
    (load,) = answer["plan"]["trips"][0]["loads"]
    assert load["pack_kg"] == 1.5 + 1.0 + 0.3
    assert load["pack_l"] == 10.0
    assert load["sled_kg"] == 3.0 + 1.0 + 0.85
    assert load["sled_l"] == 3.1
    assert load["sled_cap_kg"] == 16.0
    assert load["total_kg"] == 7.65


def test_peak_is_the_largest_share(answer: dict[str, Any]) -> None:
    """4.85 kg on a sled that may weigh 16 kg here is 0.3032 of the cap, rounded up."""
    assert answer["peak"] == {
        "load_fraction": 0.3032,
        "person_id": "solo",
        "day": 1,
        "date": "2028-02-28",
        "step": 1,
        "from": "road",
        "to": "camp",
        "binding": "sled",
    }
    assert answer["plan"]["trips"][0]["loads"][0]["load_fraction"] == 0.3032


def test_bound_gap_and_greedy_stand_beside(answer: dict[str, Any]) -> None:
    """The gap is the distance to the bound over the peak: 32 of 3032 is 0.0106."""
    assert (answer["bound"], answer["gap"], answer["proven"]) == (0.3, 0.0106, False)
    assert answer["greedy_peak"] == 0.32


def test_stock_in_nights(answer: dict[str, Any]) -> None:
    """What is left of the open can lasts 780 / 220 nights, and no food is left."""
    night = next(entry for entry in answer["plan"]["stock"] if entry["day"] == 1)
    assert night["cook_groups"] == [
        {
            "cook_group": "all",
            "nights_of_food": 0.0,
            "nights_of_fuel": 3.55,
            "night_sets": 0,
            "fuel_ml": 780,
        }
    ]
    assert night["kg"] == 5.296


def test_start_stock_has_no_night_there(answer: dict[str, Any]) -> None:
    """Where the group never sleeps no night's fuel is known, so nights of fuel are null."""
    (group,) = answer["plan"]["stock"][0]["cook_groups"]
    assert (group["nights_of_food"], group["nights_of_fuel"], group["fuel_ml"]) == (1.0, None, 1000)


def test_used_and_taken_and_back(answer: dict[str, Any]) -> None:
    """The night's food and fuel, all that is taken along, and all that comes back are listed."""
    (used,) = answer["plan"]["used"]
    assert (used["night_sets"], used["bags"], used["fuel_ml"]) == (1, 1, 220)
    taken = [unit["unit_id"] for unit in answer["plan"]["taken_along"]]
    assert taken == ["solo/bag", "rope", "all/meal", "all/can"]
    back = [unit["unit_id"] for unit in answer["plan"]["comes_down"]]
    assert back == ["solo/bag", "rope", "all/can/open-1", "trash/camp/1-1"]


def test_names_of_units(answer: dict[str, Any]) -> None:
    """Units carry the names of the request; opened cans and sacks say what they are."""
    names = {unit["unit_id"]: unit["name"] for unit in answer["plan"]["comes_down"]}
    assert names == {
        "solo/bag": None,
        "rope": "glacier rope",
        "all/can/open-1": "can, open",
        "trash/camp/1-1": "trash sack",
    }


def test_dates_of_days(answer: dict[str, Any]) -> None:
    """Day 2 of a trip that begins on 28 February of a leap year is the 29th."""
    assert [day["date"] for day in answer["plan"]["days"]] == ["2028-02-28", "2028-02-29"]
    assert [day["kind"] for day in answer["plan"]["days"]] == ["move", "descent"]


def test_days_without_a_date() -> None:
    """Without a start date there are no dates, and the end of time is no crash."""
    assert date_of(None, 3) is None
    assert date_of(dt.date(9999, 12, 31), 2) is None


def test_what_an_answer_repeats(answer: dict[str, Any]) -> None:
    """Reference, title and start date of the request come back."""
    assert (answer["reference"], answer["title"]) == ("booking 7", "One night out")
    assert answer["start_date"] == "2028-02-28"


def test_cautions_follow_the_problem(read: ReadRequest, answer: dict[str, Any]) -> None:
    """Sleds, fuel and a lone person have their cautions; aircraft and caches have none here."""
    told = {caution["caution_id"] for caution in answer["cautions"]}
    assert told >= {"who_decides", "local_rules", "sleds", "fuel_use", "small_party", "no_reserves"}
    assert not told & {"aircraft", "caches", "reserves", "height_illness", "steep_ground"}


def test_rules_checked_leave_out_those_switched_off(read: ReadRequest) -> None:
    """A rule that the request switched off is not counted as checked."""
    loose = replace(
        read,
        problem=replace(
            read.problem,
            rules=replace(read.problem.rules, switched_off=frozenset({"fuel_spread"})),
        ),
    )
    counts = [write_outcome(SOLVED, r)["check"]["rules_checked"] for r in (read, loose)]
    assert counts == [len(check(r.problem, PLAN).rules_checked) for r in (read, loose)]
    assert counts[0] - counts[1] == 1


def test_infeasible(read: ReadRequest) -> None:
    """An infeasible answer names the rules that clash, and has no plan."""
    outcome = Infeasible((Conflict("pack_cap_held", "Day 1: 2 kg too much."),), RECORD)
    document = json.loads(json.dumps(write_outcome(outcome, read)))
    assert InfeasibleAnswer.model_validate(document).conflicts[0].rule_id == "pack_cap_held"
    assert "plan" not in document


@pytest.mark.parametrize(("bound", "told"), [(None, None), (9000, 0.9)])
def test_no_plan_in_time(read: ReadRequest, bound: int | None, told: float | None) -> None:
    """An answer without a plan in time says what is known of the peak."""
    document = json.loads(json.dumps(write_outcome(NoPlanInTime(bound, RECORD), read)))
    assert NoPlanInTimeAnswer.model_validate(document).bound == told


def test_failure(read: ReadRequest) -> None:
    """A failure has a code and a text, and still repeats the reference."""
    document = write_failure(read, code="withheld_plan", detail="The plan was withheld.")
    assert FailedAnswer.model_validate(json.loads(json.dumps(document))).reference == "booking 7"


def test_plan_comes_back_as_it_went(answer: dict[str, Any]) -> None:
    """The plan of an answer, posted back whole, is the plan that was written."""
    read, plan = read_plan_check({"request": REQUEST, "plan": answer["plan"]})
    assert plan == PLAN
    assert read.reference == "booking 7"


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
    document = write_check(read, edited, report.findings, rules_checked=len(report.rules_checked))
    verdict = PlanCheckAnswer.model_validate(json.loads(json.dumps(document)))
    assert not verdict.check.passed
    assert "night_sets_held" in {finding.rule_id for finding in verdict.check.findings}
    assert verdict.peak is not None
    # The sled weighs 3.85 kg without the meal, of 16 kg: 0.240625, rounded up.
    assert verdict.peak.load_fraction == 0.2407


def test_findings_keep_where_and_how_much(read: ReadRequest) -> None:
    """A finding's amount, unit and place reach the caller."""
    finding = Finding("pack_cap_held", "too heavy", 700, "g", (("day", 1), ("person", "solo")))
    document = write_check(read, PLAN, (finding,), rules_checked=20)
    assert document["check"] == {
        "passed": False,
        "rules_checked": 20,
        "findings": [
            {
                "rule_id": "pack_cap_held",
                "message": "too heavy",
                "amount": 700,
                "unit": "g",
                "where": {"day": 1, "person": "solo"},
            }
        ],
    }


def test_faults_of_both_halves() -> None:
    """Faults of the request and of the plan are told together, each with its half in front."""
    load = {"person_id": "solo", "pack": [{"unit_id": "rope", "count": 0}]}
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
    assert found == [("/request", "missing"), ("/plan", "wrong_type")]


def test_mass_that_only_the_caller_knows(answer: dict[str, Any]) -> None:
    """An opened can weighs what is left in it, so a plan must say how much."""
    plan = {"trips": answer["plan"]["trips"]}
    del plan["trips"][1]["loads"][0]["sled"][0]["each_kg"]
    with pytest.raises(RequestFaults) as caught:
        read_plan_check({"request": REQUEST, "plan": plan})
    found = [(fault.pointer, fault.code) for fault in caught.value.faults]
    assert found == [("/plan/trips/1/loads/0/sled/0/each_kg", "missing")]


@pytest.mark.parametrize(
    ("places", "kind"),
    [
        (("camp",), "rest"),
        (("road", "camp"), "move"),
        (("road", "camp", "road"), "carry"),
        (("high", "camp", "high"), "back_carry"),
        (("camp", "road", "camp", "high", "camp"), "carry_both_ways"),
        (("high", "camp", "road"), "descent"),
        (("road", "camp", "road", "camp"), "relay"),
    ],
)
def test_kinds_of_days(places: tuple[str, ...], kind: str) -> None:
    """The kind of a day follows from the places visited."""
    assert kind_of(small_world(), Day((Visit(("north", "south"), places),))) == kind


def test_day_of_two_kinds() -> None:
    """A day on which rope teams do different things is split."""
    day = Day((Visit(("north",), ("camp",)), Visit(("south",), ("camp", "high"))))
    assert kind_of(small_world(), day) == "split"
