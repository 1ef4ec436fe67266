"""Outcomes written as answers, on a plan small enough to add up by hand."""

import copy
import json
from dataclasses import replace
from typing import Any

import pytest

from api_schema.plan_answer import FailedAnswer, InfeasibleAnswer, NoPlanInTimeAnswer, SolvedAnswer
from service.translate.read.requests import ReadRequest, read_plan_request
from service.translate.write.outcomes import write_failure, write_outcome
from service.translate.write.requirements import write_requirements
from service.translate.write.verdict import write_verdict
from solver.checker import check
from solver.outcome import (
    Conflict,
    Infeasible,
    NoPlanInTime,
    Occurrence,
    remedies_of,
)
from solver.plan import Finding, Remark
from solver.rulebook import RuleKind
from solver.rulebook.kinds import DECISION
from tests.service.one_night_out import PLAN, RECORD, REQUEST, SOLVED
from tests.service.wire import wire


@pytest.fixture
def read() -> ReadRequest:
    """The request, read."""
    return read_plan_request(copy.deepcopy(REQUEST))


@pytest.fixture
def answer(read: ReadRequest) -> dict[str, Any]:
    """The answer with the plan, as a caller gets it."""
    return wire(write_outcome(SOLVED, read))


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


def test_a_load_limit_is_the_cap_in_every_share() -> None:
    """7.65 kg in pack and sled together under a limit of 8 kg are 0.9563 of it, rounded up."""
    request = copy.deepcopy(REQUEST)
    request["roster"][0] |= {"load_limit": "8 kg", "load_limit_reason": "knee"}
    answer = wire(write_outcome(SOLVED, read_plan_request(request)))
    assert (answer["peak"]["load_fraction"], answer["peak"]["binding"]) == (0.9563, "limit")
    (load,) = answer["plan"]["trips"][0]["loads"]
    assert (load["load_fraction"], load["load_limit_kg"]) == (0.9563, 8.0)
    assert (load["pack_cap_kg"], load["sled_cap_kg"]) == (8.0, 8.0)


def test_every_answer_says_at_the_top_that_no_rule_of_glaciers_was_asked() -> None:
    """Where no leg gives its crevasse hazard, the first caution of each kind of answer says so."""
    read = read_plan_request(copy.deepcopy(REQUEST))
    refused = Infeasible((Conflict("pack_cap_held", "Too much."),), RECORD)
    verdict = check(read.problem, PLAN)
    answers = (
        write_outcome(SOLVED, read),
        write_outcome(refused, read),
        write_failure(read, code="solver_error", detail="?"),
        write_verdict(read, PLAN, verdict.findings, verdict.remarks),
        write_requirements(read),
    )
    for answer in answers:
        assert answer.cautions[0].caution_id == "glacier_rules_not_asked"
    request = copy.deepcopy(REQUEST)
    request["route"]["legs"][0]["crevasse_hazard"] = "low"
    told = write_outcome(refused, read_plan_request(request)).cautions
    assert "glacier_rules_not_asked" not in [caution.caution_id for caution in told]


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


def test_what_an_answer_repeats(answer: dict[str, Any]) -> None:
    """Reference, title and start date of the request come back."""
    assert (answer["reference"], answer["title"]) == ("booking 7", "One night out")
    assert answer["start_date"] == "2028-02-28"


def test_cautions_follow_the_problem(read: ReadRequest, answer: dict[str, Any]) -> None:
    """Sleds, fuel and a lone person have their cautions; aircraft and caches have none here."""
    told = {caution["caution_id"] for caution in answer["cautions"]}
    assert told >= {"who_decides", "local_rules", "sleds", "fuel_use", "small_party", "no_reserves"}
    assert not told & {"aircraft", "caches", "reserves", "altitude_illness", "steep_ground"}


def test_rules_checked_leave_out_those_switched_off(read: ReadRequest) -> None:
    """A rule that the request switched off is not counted as checked."""
    loose = replace(
        read,
        problem=replace(
            read.problem,
            rules=replace(read.problem.rules, switched_off=frozenset({"fuel_spread"})),
        ),
    )
    counts = [wire(write_outcome(SOLVED, r))["check"]["rules_checked"] for r in (read, loose)]
    assert counts == [len(check(r.problem, PLAN).rules_checked) for r in (read, loose)]
    assert counts[0] - counts[1] == 1


def test_remarks_are_told_with_their_kind_and_reason(read: ReadRequest) -> None:
    """A remark has its finding, its kind, what would be allowed, and the leader's reason."""
    finding = Finding(
        "total_cap_held", "2 kg too much.", 2000, "g", (("day", 1),), ("a lighter sled",)
    )
    remarks = (
        Remark(RuleKind.ADVISORY, finding, "Tried with this load."),
        Remark(RuleKind.PREFERENCE, replace(finding, where=(), instead=())),
    )
    document = wire(write_outcome(replace(SOLVED, remarks=remarks), read))
    answer = SolvedAnswer.model_validate(json.loads(json.dumps(document)))
    assert answer.check.passed
    caution, preference = (remark.model_dump() for remark in answer.check.remarks)
    assert caution == {
        "rule_id": "total_cap_held",
        "message": "2 kg too much.",
        "amount": 2000,
        "unit": "g",
        "where": {"day": 1},
        "instead": ["a lighter sled"],
        "kind": "advisory",
        "reason": "Tried with this load.",
    }
    assert (preference["kind"], preference["reason"]) == ("preference", None)
    assert (preference["where"], preference["instead"]) == ({}, [])


def test_infeasible(read: ReadRequest) -> None:
    """An infeasible answer has each cause as data, its remedies with reserves last, and no plan."""
    who = read.problem.roster[0].person_id
    place = (("person", who), ("day", 1), ("step", 1), ("from_place", "a"), ("to_place", "b"))
    conflict = Conflict(
        "pack_cap_held",
        "Day 1: 2 kg too much.",
        remedies_of((f"{DECISION} a smaller reserve", "another person")),
        2000,
        "g",
        place,
        (Occurrence("pack_cap_held", "Night of day 2", 1, "units", (("night", 2),)),),
    )
    document = wire(write_outcome(Infeasible((conflict,), RECORD), read))
    told = InfeasibleAnswer.model_validate(document).conflicts[0]
    assert (told.rule_id, told.person_id, told.amount, told.unit) == (
        "pack_cap_held",
        who,
        2000,
        "g",
    )
    assert told.trip is not None
    assert (told.trip.day, told.trip.step, told.trip.from_, told.trip.to) == (1, 1, "a", "b")
    assert told.pointer == "/roster/0/pack_cap"
    assert [(way.kind, way.text, way.is_decision) for way in told.remedies] == [
        ("other", "another person", False),
        ("reserve", "a smaller reserve", True),
    ]
    assert [(one.night, one.trip, one.pointer) for one in told.more] == [(2, None, "/calendar/1")]
    assert "plan" not in document


@pytest.mark.parametrize(("bound", "told"), [(None, None), (9000, 0.9)])
def test_no_plan_in_time(read: ReadRequest, bound: int | None, told: float | None) -> None:
    """An answer without a plan in time says what is known of the peak."""
    document = wire(write_outcome(NoPlanInTime(bound, RECORD), read))
    assert NoPlanInTimeAnswer.model_validate(document).bound == told


def test_failure(read: ReadRequest) -> None:
    """A failure has a code and a text, and still repeats the reference."""
    document = wire(write_failure(read, code="withheld_plan", detail="The plan was withheld."))
    assert FailedAnswer.model_validate(json.loads(json.dumps(document))).reference == "booking 7"
