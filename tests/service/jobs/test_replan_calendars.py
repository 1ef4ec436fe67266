"""A request for calendars on the way, from its body to its answer, as the child gives it."""

from __future__ import annotations

import copy
import json
from functools import cache
from typing import Any

import pytest

from api_schema.examples import SMALLEST_REQUEST
from api_schema.replan_calendars_answer import RestCalendarsAnswer
from service.errors import RequestFaults
from service.jobs.child import solve_document
from service.jobs.child_process import SILENT, JobLimits
from service.jobs.desk_job import read_answer
from service.jobs.question_child import REPLAN_CALENDARS, answer_question
from service.jobs.replan_calendars_child import choose_calendars
from service.routes.replan_calendars import EXAMPLE_CHOICE
from service.translate.read.replan_calendars import MOST_CALENDARS, read_replan_calendars
from service.translate.read.replans import with_state
from service.translate.write.replan_calendars import wire_calendar, write_replan_calendars
from solver.progress import Watch
from solver.questions.calendars.found_rest import FoundRest

STATE = {"at": {"day": 4, "moment": "evening"}}
BODY = {"state": STATE, "days": 6}


@cache
def followed() -> str:
    """The smallest request with its plan, as a re-plan takes them."""
    outcome = json.loads(
        solve_document(json.dumps(SMALLEST_REQUEST).encode(), JobLimits(30.0, 0), SILENT)
    )
    plan = {name: outcome["plan"][name] for name in ("trips", "stock", "flights")}
    return json.dumps({"request": SMALLEST_REQUEST, "plan": plan, "of_plan": "plan_a"})


def told(body: dict[str, Any]) -> RestCalendarsAnswer:
    """The answer of the child."""
    question = {"question": REPLAN_CALENDARS, "followed": json.loads(followed()), "body": body}
    answer = answer_question(json.dumps(question).encode(), JobLimits(40.0, 0), SILENT)
    return RestCalendarsAnswer.model_validate_json(read_answer(answer))


@pytest.fixture(scope="module")
def answer() -> RestCalendarsAnswer:
    """Calendars from the evening of day 4, at the highest camp."""
    return told(BODY)


def test_a_calendar_of_the_answer_is_what_a_re_plan_takes(answer):
    """Each calendar, sent with the same state, gives a plan with the same figures."""
    assert answer.complete
    assert [one.days for one in answer.calendars] == [5, 6]
    known = json.loads(followed())
    for one in answer.calendars:
        state = STATE | {"calendar": json.loads(one.model_dump_json())["calendar"]}
        document = with_state(known["request"], known["plan"], known["of_plan"], state)
        outcome = json.loads(
            solve_document(json.dumps(document).encode(), JobLimits(30.0, 0), SILENT)
        )
        assert outcome["outcome"] == "solved"
        assert outcome["peak"]["load_fraction"] == one.peak
        assert len(outcome["rest"]["changes"]) == one.changed_loads
        assert outcome["rest"]["let_go"] == []


def test_with_a_tolerance_what_cannot_be_much_lower_is_set_aside():
    """The answer counts what was not planned, and says how much lower it may be."""
    known = json.loads(followed())
    for asked in (0, 0.1):
        body = EXAMPLE_CHOICE | {"tolerance": asked}
        answer = told(body)
        assert answer.complete
        assert answer.planned + answer.without_plan + answer.set_aside == answer.allowed
        assert all(0 <= one.gap <= asked for one in answer.calendars)
    assert answer.set_aside > 0
    assert f"{answer.set_aside} calendars were set aside" in " ".join(answer.say)
    with pytest.raises(RequestFaults) as refused:
        read_replan_calendars(known, BODY | {"tolerance": 0.2})
    assert [fault.pointer for fault in refused.value.faults] == ["/tolerance"]


def test_the_answer_says_what_was_looked_at(answer):
    """On day 4 of 6 only the rest at the highest camp is left to choose: none, or one day."""
    assert (answer.allowed, answer.planned, answer.without_plan, answer.left_open) == (2, 2, 0, 0)
    assert [one.is_of_plan for one in answer.calendars] == [False, True]
    assert [one.rests for one in answer.calendars] == [{}, {"camp-2": 1}]
    assert all(one.carries == {} for one in answer.calendars)
    assert answer.say[0].startswith("2 of 2 allowed calendars are worth having.")
    assert answer.calendars[0].calendar[:4] == SMALLEST_REQUEST["calendar"][:4]
    assert answer.cautions


def test_days_that_are_over_stand_as_they_were_sent():
    """A day of the past with a note keeps it, and days to come are lists of places."""
    state = STATE | {"calendar": copy.deepcopy(SMALLEST_REQUEST["calendar"])}
    state["calendar"][0] = {"places": state["calendar"][0], "note": "we were late"}
    asked = read_replan_calendars(json.loads(followed()), BODY | {"state": state})
    wire = wire_calendar(asked, asked.problem.calendar)
    assert wire == state["calendar"]
    assert asked.with_calendar(wire) is not None
    assert asked.with_calendar([["road", "camp-2"]]) is None


@pytest.mark.parametrize(
    ("changed", "pointer", "code"),
    [
        ({"days": 61}, "/days", "too_large"),
        ({"state": STATE | {"wait_nights": 1}}, "/state/wait_nights", "not_together"),
        (
            {"state": STATE | {"evacuation": {"person_id": "third", "how": "walks"}}},
            "/state/evacuation",
            "not_together",
        ),
        ({"state": {"at": {"day": 9, "moment": "evening"}}}, "/state/at/day", "out_of_range"),
        (
            {"state": STATE | {"lost": [{"place": "camp-9", "unit_id": "tent"}]}},
            "/state/lost/0/place",
            "unknown_id",
        ),
        (
            {
                "state": {"at": {"day": 1, "moment": "evening"}},
                "carries": {"most": 4},
                "rests": {"most": 4},
            },
            None,
            None,
        ),
    ],
)
def test_faults_have_their_place_in_the_body(changed, pointer, code):
    """What is wrong with the state is pointed to within `state`; wide rules are no fault."""
    if pointer is None:
        asked = read_replan_calendars(json.loads(followed()), BODY | changed)
        # At the road: up to 4 days there, and on each of two moves up to 4 carries and 4 rests.
        assert asked.onward.box(asked.rules).count() == 5**5 < MOST_CALENDARS
        return
    with pytest.raises(RequestFaults) as refused:
        read_replan_calendars(json.loads(followed()), BODY | changed)
    assert [(one.pointer, one.code) for one in refused.value.faults] == [(pointer, code)]


def test_people_who_part_in_the_days_to_come_cannot_choose():
    """The calendar of the state sends two rope teams different ways."""
    known = json.loads(followed())
    for person, team in zip(known["request"]["roster"], ("a", "a", "b"), strict=True):
        person["rope_team"] = team
    for item in known["request"]["gear"]:
        # Kit for every trip cannot be with two parties; where it stays does not matter here.
        item["needed"] = "every_night"
    calendar = copy.deepcopy(SMALLEST_REQUEST["calendar"])
    calendar[4] = {"teams": {"a": ["camp-2"], "b": ["camp-2", "camp-1", "camp-2"]}}
    body = BODY | {"state": STATE | {"calendar": calendar}}
    with pytest.raises(RequestFaults) as refused:
        read_replan_calendars(known, body)
    assert [fault.code for fault in refused.value.faults] == ["no_moves_to_choose_by"]


def test_too_many_calendars_are_refused():
    """At the road with three moves to come, 4 carries and rests each are 5 ** 7 calendars."""
    known = json.loads(followed())
    request = known["request"]
    request["route"]["places"].append({"place_id": "camp-3", "elevation": "3000 m"})
    request["route"]["legs"].append({"from": "camp-2", "to": "camp-3", "mode": "pack"})
    request["calendar"] = [
        ["road", "camp-1", "road"],
        ["road", "camp-1"],
        ["camp-1", "camp-2"],
        ["camp-2", "camp-3"],
        ["camp-3", "camp-2", "camp-1", "road"],
    ]
    state = {"at": {"day": 1, "moment": "evening"}}
    body = {"state": state, "days": 40, "carries": {"most": 4}, "rests": {"most": 4}}
    with pytest.raises(RequestFaults) as refused:
        read_replan_calendars(known, body)
    assert [(fault.pointer, fault.code) for fault in refused.value.faults] == [("", "too_many")]
    assert "78125" in refused.value.faults[0].detail


def test_without_time_nothing_is_claimed():
    """Every calendar stays open, and the answer says so."""
    question = {"followed": json.loads(followed()), "body": BODY}
    answer = choose_calendars(question, Watch(0.0))
    assert (answer.left_open, answer.complete, answer.calendars) == (2, False, [])
    assert answer.say[0] == "2 calendars were not decided when the time ended."


@pytest.mark.parametrize(
    ("found", "words"),
    [
        (FoundRest((), 0, 0, 0), "The rules allow no calendar"),
        (FoundRest((), 3, 0, 3), "No allowed calendar has a plan."),
    ],
)
def test_where_there_is_none_the_answer_says_why(found, words):
    """Too few days are one thing, and calendars without a plan another."""
    asked = read_replan_calendars(json.loads(followed()), BODY)
    answer = write_replan_calendars(asked, found)
    assert answer.say[0].startswith(words)
    assert answer.complete


def test_the_example_of_the_description_is_in_order():
    """It allows eight calendars from the evening of day 2."""
    asked = read_replan_calendars(json.loads(followed()), dict(EXAMPLE_CHOICE))
    assert asked.onward.box(asked.rules).count() == 8
