"""A request for calendars, from its body to its answer, as the child gives it."""

from __future__ import annotations

import copy
import json

import pytest

from api_schema.calendars_answer import CalendarsAnswer
from api_schema.calendars_request import CalendarsRequest
from api_schema.examples import SMALLEST_CALENDARS
from service.errors import RequestFaults
from service.jobs.child_process import SILENT, JobLimits
from service.jobs.desk_job import read_answer
from service.jobs.question_child import CALENDARS, answer_question
from service.routes.calendars import router
from service.translate.read.calendars import read_calendars
from service.translate.read.requests import read_plan_request
from service.translate.write.calendars import write_calendars
from solver.problem import Calendar, Day, Visit
from solver.questions.calendars.choose import Chosen
from solver.questions.calendars.found import FoundCalendars, SolvedCalendar


def test_the_smallest_request_gets_calendars_that_a_request_can_take():
    """Each calendar of the answer, put into the request, is a request in order."""
    question = {"question": CALENDARS, "body": {**SMALLEST_CALENDARS, "days": 6}}
    answer = answer_question(json.dumps(question).encode(), JobLimits(15.0, 0), SILENT)
    told = CalendarsAnswer.model_validate_json(read_answer(answer))
    assert told.solved + told.left_open > 0
    for point in told.curve:
        request = copy.deepcopy(SMALLEST_CALENDARS["request"])
        request["calendar"] = json.loads(point.best.model_dump_json())["calendar"]
        assert len(read_plan_request(request).problem.calendar.days) == point.best.days
        assert point.best.days <= 6


def test_rules_and_goal_arrive_as_they_were_sent():
    """Carries by leg, rests by place, limits and tolerance reach the solver in its units."""
    body = {
        **SMALLEST_CALENDARS,
        "carries_on": [{"from": "road", "to": "camp-1", "least": 1, "most": 2}],
        "rests_at": [{"place": "camp-1", "most": 1}],
        "minimise": "days",
        "limits": {"peak": 0.95},
        "tolerance": 0.01,
    }
    CalendarsRequest.model_validate(body)
    asked = read_calendars(body)
    assert asked.rules.carries == (0, 1)
    assert asked.rules.carries_on == ((("road", "camp-1"), (1, 2)),)
    assert asked.rules.rests_at == (("camp-1", (0, 1)),)
    assert (asked.goal.minimise.value, asked.goal.peak, asked.tolerance) == ("days", 9_500, 100)


@pytest.mark.parametrize(
    ("spoil", "pointer"),
    [
        ({"days": 0}, "/days"),
        ({"request": {"roster": []}}, "/request/roster"),
        ({"minimise": "beauty"}, "/minimise"),
    ],
)
def test_faults_have_the_place_in_the_body(spoil, pointer):
    """What is wrong is pointed to, in the request for a plan as well."""
    with pytest.raises(RequestFaults) as raised:
        read_calendars({**SMALLEST_CALENDARS, **spoil})
    assert any(fault.pointer.startswith(pointer) for fault in raised.value.faults)


def test_a_summit_day_keeps_its_times_and_note():
    """A day with clock times is an object again, one without is a list of places."""
    asked = read_calendars(SMALLEST_CALENDARS)
    days = (
        Day((Visit(("r",), ("a", "b")),)),
        Day((Visit(("r",), ("b", "s", "b")),), "early", start_hour=6.5, turn_round_hour=14.0),
    )
    one = SolvedCalendar(Calendar(days), (0, 0, 0, 0), 2, 9_000, 8_900, 1, None)  # type: ignore[arg-type]
    found = FoundCalendars((), 1, 1, 0, (one,))
    told = write_calendars(found, Chosen(one, proven=False), asked.skeleton, asked.read)
    assert (told.curve, told.allowed, told.chosen_is_proven) == ([], 1, False)
    assert told.chosen is not None
    assert json.loads(told.chosen.model_dump_json())["calendar"] == [
        ["a", "b"],
        {"places": ["b", "s", "b"], "start": "06:30", "turn_round": "14:00", "note": "early"},
    ]


@pytest.mark.parametrize("count", [None, 3])
def test_what_is_taken_beyond_given_counts_is_an_assumption(count):
    """Only where the request says how many containers there are, it is told that more are taken."""
    can = {"container_id": "can", "content": "2 L", "tare": "100 g", "volume": "2 L"}
    fuel = {"containers": [can if count is None else can | {"count": count}]}
    request = {**SMALLEST_CALENDARS["request"], "fuel": fuel}
    asked = read_calendars({**SMALLEST_CALENDARS, "request": request})
    told = write_calendars(FoundCalendars((), 1, 1, 0, ()), None, asked.skeleton, asked.read)
    values = [one.value for one in told.assumptions]
    assert ("as many as the calendar needs" in values) == (count is not None)


def test_calendars_have_one_address():
    """There is one route, to which a body is posted."""
    assert [route.path for route in router.routes] == ["/v1/calendars"]
