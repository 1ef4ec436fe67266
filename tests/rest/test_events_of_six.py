"""Events for which a party parts, waits for its flight, or has not flown in yet.

The list of events is common practice, no source. The expedition is the example for six.
"""

import copy
import json
import time
from functools import cache

import pytest

from service.jobs.child import solve_document
from service.jobs.child_process import SILENT, JobLimits, Talk
from service.translate.read.replans import with_state
from tests.rest.events_of_six import EVENTS_OF_SIX, EXAMPLE, FLOWN_IN, SECOND_FLIGHT
from tests.yardstick import yardstick_seconds

pytestmark = pytest.mark.slow

LIMITS = JobLimits(6.0, 0)


def _solve(document):
    return json.loads(solve_document(json.dumps(document).encode(), LIMITS, SILENT))


@cache
def _followed():
    request = json.loads(EXAMPLE.read_text(encoding="utf-8"))
    outcome = _solve(request)
    assert outcome["outcome"] == "solved"
    return request, {name: outcome["plan"][name] for name in ("trips", "stock", "flights")}


@cache
def _answer(name: str):
    request, plan = _followed()
    return _solve(with_state(request, plan, "plan_of_six", copy.deepcopy(EVENTS_OF_SIX[name])))


def _told(name: str) -> str:
    return " ".join(_answer(name)["rest"]["say"])


def test_04_a_client_goes_down_with_a_guide_and_another_client():
    """Three take a bivy, a stove, a can, rope, kits, a radio, and six night sets for two nights."""
    found = _answer("04 client evacuated with a companion")["rest"]["evacuation"]
    assert found["possible"]
    assert found["leaving"] == ["client-2", "guide-1", "client-1"]
    takes = {one["unit_id"]: one["count"] for one in found["takes"]}
    assert takes["kitchen/mid"] == 6
    assert takes["rescue-kit.rope-1"] == 2
    for unit in ("bivy-shelter", "stove", "kitchen/can", "rope.rope-1", "messenger"):
        assert takes[unit] == 1
    hurt = [
        load for trip in found["trips"] for load in trip["loads"] if load["person_id"] == "client-2"
    ]
    assert max(load["total_kg"] for load in hurt) <= hurt[0]["load_limit_kg"]
    assert found["sleds_left"] == ["sled-4"]


def test_04_those_who_stay_must_not_go_above_the_sled_camp_with_one_guide():
    """The others are refused by that rule; rescue services and a physician are named."""
    answer = _answer("04 client evacuated with a companion")
    assert "stay_low_with_one_guide" in [c["rule_id"] for c in answer["conflicts"]]
    told = _told("04 client evacuated with a companion")
    assert "Call the rescue services, and ask a physician" in told
    assert "People on the spot decide" in told


def test_04_those_who_stay_bring_the_camp_down():
    """Both parties have a plan, and the main one is of the three who stay."""
    answer = _answer("04 the others bring the camp down")
    assert answer["outcome"] == "solved"
    assert answer["check"]["passed"]
    assert answer["rest"]["evacuation"]["possible"]
    staying = {"guide-2", "client-3", "client-4"}
    to_come = [trip for trip in answer["plan"]["trips"] if trip["day"] > 9]
    assert {load["person_id"] for trip in to_come for load in trip["loads"]} == staying
    evening, morning = answer["rest"]["settled"]
    assert [(one["day"], one["after_night"]) for one in (evening, morning)] == [
        (9, False),
        (9, True),
    ]
    assert evening["left"] == []
    assert {one["person_id"] for one in morning["left"]} == {"client-1", "client-2", "guide-1"}


def test_05_one_guide_and_one_client_are_too_few_for_a_crevassed_leg():
    """The party of two that the leader names is refused, with the reason."""
    found = _answer("05 a party of two")["rest"]["evacuation"]
    assert not found["possible"]
    assert "2 roped people where the crevasse hazard is moderate, at least 3 needed" in " ".join(
        found["say"]
    )


def test_15_two_parties_have_two_plans_from_one_stock():
    """Nobody is hurt: the parties carry full loads, and no advice about physicians is given."""
    answer = _answer("15 the team splits")
    assert answer["outcome"] == "solved"
    found = answer["rest"]["evacuation"]
    assert found["possible"]
    first = found["trips"][0]["loads"]
    assert {load["person_id"] for load in first} == {"client-1", "guide-1", "client-2"}
    assert all(load["load_limit_kg"] is None for load in first)
    assert "physician" not in " ".join(found["say"])


def test_04_somebody_is_hauled_down_by_all_five():
    """Two could not pull the litter on every leg, so everybody goes, each with 19.5 kg of it."""
    answer = _answer("04 hauled from the second camp")
    found = answer["rest"]["evacuation"]
    assert found["possible"]
    assert (len(found["leaving"]), found["staying"]) == (6, [])
    assert found["each_hauler_pulls_kg"] == pytest.approx(19.467)
    pulled = [load for trip in found["trips"] for load in trip["loads"] if load["sled_id"]]
    assert pulled == []


def test_20_the_flight_out_is_late_and_the_wait_at_the_strip_is_used():
    """Three nights of the base wait are used up, and what is left is told."""
    answer = _answer("20 flight out is late")
    assert answer["outcome"] == "solved"
    assert "3 of 3 nights of the base_wait reserve at strip" in _told("20 flight out is late")
    assert answer["rest"]["waits"][0]["place"] == "strip"


@cache
def _broken_sled(stop_after: str | None = None):
    """The answer to the broken sled, its processor time, and what it told: stage, peak, time.

    Times are in yardsticks of the machine. The solve is told to finish after a stage.
    """
    request, plan = _followed()
    state = copy.deepcopy(EVENTS_OF_SIX["06 a sled breaks on day 6"])
    document = json.dumps(with_state(request, plan, "plan_of_six", state)).encode()
    told = []
    before = yardstick_seconds()
    begun = time.process_time()
    talk = Talk(
        tell=lambda said: told.append((json.loads(said), time.process_time() - begun)),
        should_finish=lambda: any(one["stage"] == stop_after for one, _ in told),
    )
    answer = json.loads(solve_document(document, JobLimits(60.0, 0), talk))
    took = time.process_time() - begun
    yardstick = min(before, yardstick_seconds())
    return answer, took / yardstick, [(one, at / yardstick) for one, at in told]


def _changes(answer) -> int:
    return {goal["goal_id"]: goal["value"] for goal in answer["goals"]}["closeness"]


def test_06_a_sled_breaks_on_day_6_and_the_answer_is_soon_there():
    """Few loads change, no clock decides, and it takes under 54 yardsticks: 39 to 47 measured.

    The limit is what 5 s were where the answer took 3.7 s of processor time.
    """
    answer, took, _ = _broken_sled()
    assert answer["outcome"] == "solved"
    assert answer["solve"]["repeatable"]
    assert took < 54
    _, plan = _followed()
    moved = sum(
        len(load["pack"]) + len(load["sled"]) for trip in plan["trips"] for load in trip["loads"]
    )
    assert 0 < _changes(answer) < 0.1 * moved


def test_06_the_first_plan_is_there_before_half_of_that():
    """It is told with its peak after under 22 yardsticks: 13 to 16 measured.

    The limit is what 2 s were where the plan took 1.2 s of processor time. Of three runs that do
    the same up to there the quickest counts: others on the same cores only add to it.
    """
    firsts = [
        next((one["peak"], at) for one, at in told if one["stage"] == "first plan")
        for _, _, told in (_broken_sled(), _broken_sled("first plan"), _broken_sled("packing"))
    ]
    assert len({peak for peak, _ in firsts}) == 1
    assert 0 < firsts[0][0] < 1
    assert min(at for _, at in firsts) < 22


@pytest.mark.parametrize("stage", ["first plan", "packing"])
def test_06_who_asks_to_finish_then_gets_the_first_plan(stage: str):
    """It passes the check, and as few loads change as in the answer of a whole search."""
    answer, _, told = _broken_sled(stage)
    assert answer["outcome"] == "solved"
    assert answer["check"]["passed"]
    assert _changes(answer) == _changes(_broken_sled()[0])
    first = next(one for one, _ in told if one["stage"] == "first plan")
    assert told[-1][0]["stage"] == "check"
    assert told[-1][0]["peak"] == first["peak"]


def test_19_without_the_second_flight_one_person_is_not_there():
    """Refused for the seats; with a later flight in its place there is a plan again."""
    cancelled = copy.deepcopy(FLOWN_IN)
    assert _solve(cancelled)["outcome"] == "solved"
    cancelled["flights"].remove(SECOND_FLIGHT)
    refused = _solve(cancelled)
    assert refused["outcome"] == "infeasible"
    assert "seats_for_all" in [c["rule_id"] for c in refused["conflicts"]]
    later = copy.deepcopy(cancelled)
    later["flights"].insert(1, {**SECOND_FLIGHT, "flight_id": "in-later"})
    assert _solve(later)["outcome"] == "solved"
