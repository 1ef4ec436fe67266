"""Questions that need the solver: a child answers, refusals come back as what they are."""

from __future__ import annotations

import copy
import json
from types import SimpleNamespace
from typing import Any, cast

import pytest
from pydantic import BaseModel

from api_schema.limits_answer import LimitsThatBindAnswer
from service.errors import ServiceProblem
from service.jobs import child_process, question_child
from service.jobs import questions as questions_module
from service.jobs.child_process import SILENT, JobLimits, Talk
from service.jobs.desk_job import done, read_answer, refused
from service.jobs.question_child import LIMITS_THAT_BIND, answer_question
from service.jobs.questions import Questions
from service.jobs.supervisor import Answered, Broken, NotStarted, Stopped, Supervisor
from service.translate.read.requests import read_plan_request
from service.translate.write.outcomes import write_outcome
from solver.progress import Watch
from tests.service.one_night_out import REQUEST, SOLVED
from tests.service.wire import wire


class Stand:
    """A supervisor that ends every job in one way."""

    def __init__(self, end: Any, told: tuple[bytes | None, ...] = ()) -> None:
        self.end = end
        self.told = told
        self.asked: list[dict[str, Any]] = []
        self.how: dict[str, Any] = {}
        self.closed = False

    def run(self, document: bytes, **how: object) -> Any:
        """Note the question and end."""
        self.asked.append(json.loads(document))
        self.how = how
        assert not any(map(self.how["on_look"], self.told))
        return self.end

    def close(self) -> None:
        """Note it."""
        self.closed = True


def questions(stand: Stand) -> Questions:
    """Questions that go to a stand-in."""
    return Questions(cast(Supervisor, stand))


def test_an_answer_comes_back_as_written():
    """What the child says is handed on byte for byte."""
    stand = Stand(Answered(done(b'{"a": 1}')))
    assert questions(stand).ask({"question": "x"}, seconds=1.0) == b'{"a": 1}'
    assert [one["question"] for one in stand.asked] == ["x"]


def test_the_time_of_a_question_begins_before_its_child_starts(monkeypatch):
    """Child and supervisor hear of one moment, so many seconds after the question's turn came."""
    monkeypatch.setattr(questions_module, "time", SimpleNamespace(monotonic=lambda: 100.0))
    stand = Stand(Answered(done(b"{}")))
    questions(stand).ask({"question": "x"}, seconds=8.0)
    assert stand.asked == [{"question": "x", "ends_at": 108.0}]
    assert (stand.how["ends_at"], stand.how["wall_seconds"]) == (108.0, 8.0)


@pytest.mark.parametrize(
    ("ends_in", "watched"), [(None, 7.5), (60.0, 7.5), (5.0, 4.5), (1.0, 1.5), (-9.0, 1.5)]
)
def test_a_child_works_until_that_moment(monkeypatch, ends_in, watched):
    """It keeps half a second for writing, and has two seconds however late it starts."""
    monkeypatch.setattr(child_process, "time", SimpleNamespace(monotonic=lambda: 100.0))
    heard = []

    def noted(_document: object, watch: Watch, _tell: object) -> Empty:
        heard.append(watch.wall_seconds)
        return Empty()

    monkeypatch.setitem(question_child._ANSWERS, "noted", noted)
    question = {"question": "noted"} | ({} if ends_in is None else {"ends_at": 100.0 + ends_in})
    answer_question(json.dumps(question).encode(), JobLimits(8.0, 0), SILENT)
    assert heard == [watched]


class Empty(BaseModel):
    """An answer that says nothing."""


@pytest.mark.parametrize(
    ("end", "code"),
    [
        (Answered(refused("internal_error", None, ())), "internal_error"),
        (Broken("solver_timed_out", worth_retrying=False), "too_much_work"),
        (Broken("solver_out_of_memory", worth_retrying=False), "too_much_work"),
        (Broken("solver_error", worth_retrying=False), "internal_error"),
        (Broken("solver_crashed", worth_retrying=True), "too_busy"),
        (NotStarted(), "too_busy"),
        (Stopped(), "too_busy"),
    ],
)
def test_a_refusal_and_a_broken_child_are_problems(end, code):
    """A refusal is raised as what it is; only time and memory are held against the question."""
    with pytest.raises(ServiceProblem) as raised:
        questions(Stand(end)).ask({}, seconds=1.0)
    assert raised.value.code == code


def test_where_a_child_is_ended_what_it_knew_is_the_answer():
    """The newest of what it told; a child that dies of something else gives no answer."""
    told = (done(b"1"), done(b"2"), None)
    late = Broken("solver_timed_out", worth_retrying=False)
    assert questions(Stand(late, told)).ask({}, seconds=1.0) == b"2"
    assert questions(Stand(Answered(done(b"3")), told)).ask({}, seconds=1.0) == b"3"
    crashed = Broken("solver_crashed", worth_retrying=True)
    with pytest.raises(ServiceProblem):
        questions(Stand(crashed, told)).ask({}, seconds=1.0)


def test_after_closing_no_question_is_taken():
    """A service that stops refuses at once, and its child server is ended."""
    stand = Stand(Answered(done(b"{}")))
    asked = questions(stand)
    asked.close()
    assert stand.closed
    with pytest.raises(ServiceProblem):
        asked.ask({}, seconds=1.0)


def test_the_child_says_what_binds_a_plan():
    """A stored request and its plan give the caps at the peak and steps, each judged."""
    outcome = wire(write_outcome(SOLVED, read_plan_request(copy.deepcopy(REQUEST))))
    question = {
        "question": LIMITS_THAT_BIND,
        "plan_id": "plan_x",
        "request": REQUEST,
        "plan": outcome["plan"],
        "bound": 0.0,
    }
    early: list[bytes] = []
    talk = Talk(tell=early.append, should_finish=lambda: False)
    answer = answer_question(json.dumps(question).encode(), JobLimits(8.0, 0), talk)
    told = LimitsThatBindAnswer.model_validate_json(read_answer(answer))
    assert early
    for one in early:
        known = LimitsThatBindAnswer.model_validate_json(read_answer(one))
        assert (known.binding, len(known.steps)) == (told.binding, len(told.steps))
        assert known.not_tried > told.not_tried
    assert told.binding
    assert told.binding[0].load_fraction == told.peak
    assert told.steps
