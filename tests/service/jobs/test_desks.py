"""What is worked out while a caller waits: bounded, and never at the price of another caller."""

import json
import os
import signal
import threading
import time
from collections.abc import Iterator
from unittest.mock import Mock

import pytest

from service.errors import RequestFaults, ServiceProblem
from service.jobs import desk_job, desks
from service.jobs.child_process import SILENT, JobLimits
from service.jobs.desk_job import (
    CHECK,
    ORDER,
    REPLAN,
    REQUIREMENTS,
    read_answer,
    read_order,
    read_replan_order,
)
from service.jobs.desks import DesksInProcesses
from service.jobs.launcher import Launcher
from service.written_document import written
from tests.service.fake_translation import work_at_desk
from tests.service.processes import parent_of, solving_under, until

LIMITS = JobLimits(wall_seconds=0.6, memory_bytes=256 * 1024 * 1024)


@pytest.fixture(scope="module")
def pool() -> Iterator[DesksInProcesses]:
    """Two desks that are warm."""
    launcher = Launcher("tests.service.fake_translation:work_at_desk", at_a_desk=True)
    opened = DesksInProcesses(launcher, LIMITS, desks=2)
    opened.start()
    for _ in range(2):
        order(opened)
    yield opened
    opened.close()


def order(pool: DesksInProcesses, **members) -> desk_job.WrittenOrder:
    """What a desk says of a request."""
    return read_order(pool.ask(ORDER + json.dumps(members).encode()))


def code_of(pool: DesksInProcesses, **members) -> str:
    """The problem that a request is refused with."""
    with pytest.raises(ServiceProblem) as refused:
        order(pool, **members)
    return refused.value.code


def test_the_four_questions_are_answered(pool):
    """A desk reads an order or a re-plan, judges a plan and states requirements."""
    request = {"solve_seconds": 2, "reference": "b\u00e4r\n1"}
    asked = order(pool, **request)
    assert asked == desk_job.WrittenOrder("b\u00e4r\n1", 2, written(request))
    assert json.loads(pool.ask(CHECK + b'{"reference": "c"}'))["reference"] == "c"
    assert json.loads(pool.ask(REQUIREMENTS + b"null\n{}"))["figures"] == []
    told = pool.ask(REPLAN + b'{"of_plan": "p"}\n{"reference": "d"}')
    stored = {"of_plan": "p", "state": {"reference": "d"}}
    assert read_replan_order(told) == (desk_job.Order("d", None), stored)


def test_a_question_takes_milliseconds(pool):
    """Twenty questions to a warm desk take under 20 ms each."""
    begin = time.monotonic()
    for _ in range(20):
        order(pool)
    assert time.monotonic() - begin < 0.4


@pytest.mark.parametrize("short", [True, False])
def test_desks_rest_while_solves_go_short(pool, monkeypatch, short):
    """Four questions of 0.2 s at two desks take two turns, the second after a rest of 0.4 s."""
    monkeypatch.setattr(pool._share, "solves_go_short", lambda: short)
    question = {"order": "sleep_at_the_desk", "seconds": 0.2}
    asking = [threading.Thread(target=order, args=(pool,), kwargs=question) for _ in range(4)]
    begin = time.monotonic()
    for thread in asking:
        thread.start()
    for thread in asking:
        thread.join()
    taken = time.monotonic() - begin
    assert taken >= (0.8 if short else 0.4)
    assert short or taken < 0.8
    # The rest that comes last is over before others ask.
    until(lambda: pool._free.qsize() == 2)


def test_a_desk_that_rests_is_closed_with_the_others(monkeypatch):
    """Its rest ends after the close, and no process is left."""
    launcher = Launcher("tests.service.fake_translation:work_at_desk", at_a_desk=True)
    opened = DesksInProcesses(launcher, LIMITS, desks=1)
    monkeypatch.setattr(opened._share, "solves_go_short", lambda: True)
    others = set(solving_under(os.getpid()))
    order(opened, order="sleep_at_the_desk", seconds=0.3)
    (resting,) = set(solving_under(os.getpid())) - others
    opened.close()
    assert parent_of(resting) != 0
    until(lambda: parent_of(resting) == 0, seconds=5)


@pytest.mark.parametrize(("worked", "rested"), [(0.2, 0.4), (60.0, desks._TURN_SECONDS)])
def test_no_rest_is_longer_than_a_caller_waits(pool, monkeypatch, worked, rested):
    """Twice as long as the question took, and five seconds at most."""
    made = []
    monkeypatch.setattr(pool._share, "solves_go_short", lambda: True)
    monkeypatch.setattr(
        desks.threading, "Timer", lambda seconds, *_: made.append(seconds) or Mock()
    )
    pool._give_back(None, worked)
    assert made == [pytest.approx(rested)]


def test_faults_come_back_as_they_were(pool):
    """All shown faults and the number of the rest cross the pipe."""
    with pytest.raises(RequestFaults) as refused:
        order(pool, faults=desk_job.MOST_FAULTS_SENT + 5)
    assert len(refused.value.faults) == desk_job.MOST_FAULTS_SENT
    assert refused.value.left_out == 5
    assert refused.value.faults[3].pointer == "/roster/3/pack_cap"


def test_a_refusal_of_the_reader_comes_back_with_its_detail():
    """A body that is no JSON is refused with where it breaks off."""
    answer = work_at_desk(ORDER + b"{", LIMITS, SILENT)
    with pytest.raises(ServiceProblem, match="malformed_json") as refused:
        read_answer(answer)
    assert "line 1" in refused.value.detail


@pytest.mark.parametrize("bad", ["burn", "eat"])
def test_what_costs_too_much_is_refused(pool, bad):
    """An endless question, or one without bounds in memory, is refused within two seconds."""
    begin = time.monotonic()
    assert code_of(pool, order=bad) == "too_much_work"
    assert time.monotonic() - begin < 3
    assert order(pool).reference is None


def test_a_fault_of_ours_is_told_as_ours(pool):
    """An exception at a desk is an internal error, and the next question is answered."""
    assert code_of(pool, order="break_the_web") == "internal_error"
    assert order(pool).reference is None


def test_a_desk_that_somebody_kills_is_replaced(pool):
    """Nobody hears of it: the question is asked again at a new desk."""
    assert order(pool).reference is None
    for desk in solving_under(os.getpid()):
        os.kill(desk, signal.SIGKILL)
    for _ in range(2):
        assert order(pool, reference="again").reference == "again"


@pytest.mark.parametrize("letters", [10, 2_000_000])
def test_a_desk_that_somebody_stops_gives_its_caller_and_its_place_back(pool, letters):
    """Also while a large body goes to it. That is no fault of the body, and the next is read."""
    assert order(pool).reference is None
    stopped = solving_under(os.getpid())
    for desk in stopped:
        os.kill(desk, signal.SIGSTOP)
    told: list[str] = []

    def ask() -> None:
        told.append(code_of(pool, title="x" * letters))

    thread = threading.Thread(target=ask, daemon=True)
    begin = time.monotonic()
    thread.start()
    try:
        thread.join(3 * desks._WALL_PER_CPU * LIMITS.wall_seconds)
        assert told == ["too_busy"]
        assert time.monotonic() - begin < desks._WALL_PER_CPU * LIMITS.wall_seconds + 1
    finally:
        for desk in solving_under(os.getpid()):
            if desk in stopped:
                os.kill(desk, signal.SIGKILL)
        thread.join()
    for _ in range(2):
        assert order(pool, reference="again").reference == "again"


def test_too_many_at_once_are_refused(pool, monkeypatch):
    """With both desks taken, who waits longer than their turn is told to come again."""
    monkeypatch.setattr(desks, "_TURN_SECONDS", 0.1)
    slow = {"order": "sleep_at_the_desk", "seconds": 1}
    threads = [threading.Thread(target=order, args=(pool,), kwargs=slow) for _ in range(2)]
    for thread in threads:
        thread.start()
    time.sleep(0.2)
    assert code_of(pool) == "too_busy"
    for thread in threads:
        thread.join()


def test_a_busy_machine_does_not_load_for_ever(monkeypatch):
    """A caller who waits in vain is sent away, and what loads goes on until a desk is ready."""
    monkeypatch.setattr(desks, "_FIRST_START_SECONDS", 0.2)
    monkeypatch.setattr(desks, "_START_SECONDS", 0.1)
    launcher = Launcher("tests.service.loads_in_a_second:work_at_desk", at_a_desk=True)
    slow = DesksInProcesses(launcher, LIMITS, desks=1)
    assert not slow.is_ready()
    begun = time.monotonic()
    slow.start()
    try:
        assert code_of(slow) == "too_busy"
        until(slow.is_ready, seconds=60)
        # It is the first server that is ready now, not one that was begun later.
        assert launcher.age_seconds() > time.monotonic() - begun - 0.5
        assert order(slow, reference="r").reference == "r"
    finally:
        slow.close()
