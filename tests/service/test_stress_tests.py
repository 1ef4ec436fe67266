"""Stress tests as the service answers them, on the smallest request."""

import json
import time
from pathlib import Path

import pytest

from api_schema.examples import SMALLEST_REQUEST
from api_schema.stress_answer import (
    StressTestAnswer,
    StressTestEntryAnswer,
    StressTestListAnswer,
)
from service.app import GUARDED
from service.jobs.child_process import SILENT, JobLimits
from service.jobs.stress_child import do_stored_work
from service.routes.stress_tests import router

NEVER = "stress_" + "0" * 26


@pytest.fixture(scope="module")
def plan_id(caller) -> str:
    """A solved plan of the smallest request."""
    answer = caller.post("/v1/plans", json=SMALLEST_REQUEST, headers={"Prefer": "wait=50"})
    assert answer.json()["outcome_kind"] == "solved", answer.text
    return answer.json()["plan_id"]


@pytest.fixture(scope="module")
def tested(caller, plan_id) -> StressTestAnswer:
    """The stress test of that plan with every kind of blow."""
    answer = caller.post(
        f"/v1/plans/{plan_id}/stress-tests", json={"seconds": 30}, headers={"Prefer": "wait=60"}
    )
    assert answer.status_code == 201, answer.text
    told = StressTestAnswer.model_validate_json(answer.content)
    assert answer.headers["location"] == f"/v1/stress-tests/{told.stress_test_id}"
    return told


def test_every_blow_has_a_verdict_and_the_counts_add_up(tested, plan_id):
    """The result names each blow once, counts its verdicts, and arithmetic settles most."""
    assert (tested.state, tested.plan_id, tested.failure) == ("done", plan_id, None)
    result = tested.result
    counts = result.counts
    assert counts.stands + counts.after_replan + counts.no + counts.not_settled == len(result.blows)
    settled = counts.stands + counts.after_replan + counts.no
    assert settled >= len(result.blows) / 2
    assert tested.progress.states == result.states
    people = {blow.thing for blow in result.blows if blow.kind == "person"}
    assert people == {person["person_id"] for person in SMALLEST_REQUEST["roster"]}
    assert all(blow.why for blow in result.blows if blow.verdict == "no")


def test_the_weakest_day_has_most_blows_that_end_the_plan(tested):
    """No other day has more of them."""
    ended = [blow.day for blow in tested.result.blows if blow.verdict == "no"]
    weakest = tested.result.weakest_day
    assert weakest.no == ended.count(weakest.day) == max(ended.count(day) for day in set(ended))


def test_the_result_goes_with_its_cautions(tested):
    """The people on the spot decide, and nothing here is medical advice."""
    words = " ".join(caution.text for caution in tested.result.cautions)
    assert "decide" in words
    assert "physician" in words


def test_a_test_is_read_again_and_stands_in_no_list_of_plans(caller, tested, plan_id):
    """It has an address of its own, and is no plan."""
    name = tested.stress_test_id
    again = StressTestAnswer.model_validate(caller.get(f"/v1/stress-tests/{name}").json())
    assert again == tested
    listed = [plan["plan_id"] for plan in caller.get("/v1/plans").json()["plans"]]
    assert listed == [plan_id]
    assert caller.get(f"/v1/plans/{name}").status_code == 404
    assert caller.delete(f"/v1/plans/{name}").status_code == 404


def test_figures_for_monitoring_tell_a_test_from_a_plan(caller, tested):
    """After a test has ended the figures are still there, and it is counted as a test."""
    answer = caller.get("/metrics")
    assert answer.status_code == 200
    lines = answer.text.splitlines()
    assert [line for line in lines if line.startswith("haulwright_plans_ended_lately")] == [
        'haulwright_plans_ended_lately{outcome="solved"} 1'
    ]
    ended = [line for line in lines if line.startswith("haulwright_stress_tests_ended_lately")]
    assert ended == ['haulwright_stress_tests_ended_lately{outcome="stress_tested"} 1']


def test_the_tests_of_a_plan_are_listed(caller, tested, plan_id):
    """Newest first, in short, a page at a time; a plan without tests has an empty list."""
    store = caller.app.state.wiring.store
    newer = [
        store.accept(
            tenant_id="default",
            reference=None,
            solve_seconds=1.0,
            document={"stress_test": {}, "plan_id": plan_id},
            kind="stress",
            tested_plan_id=plan_id,
        ).plan_id
        for _ in range(2)
    ]
    address = f"/v1/plans/{plan_id}/stress-tests"
    first = StressTestListAnswer.model_validate(caller.get(address, params={"limit": 2}).json())
    names = [one.stress_test_id for one in first.stress_tests]
    assert set(names) == set(newer)
    asked = {"limit": 2, "cursor": first.next_cursor}
    rest = StressTestListAnswer.model_validate(caller.get(address, params=asked).json())
    (listed,) = rest.stress_tests
    assert listed == StressTestEntryAnswer.model_validate(
        tested.model_dump(include=set(StressTestEntryAnswer.model_fields))
    )
    assert (names, rest.next_cursor) == (sorted(names, reverse=True), None)
    for name in newer:
        assert caller.delete(f"/v1/stress-tests/{name}").status_code == 204
    assert caller.get(f"/v1/plans/plan_{'0' * 26}/stress-tests").status_code == 404
    refused = caller.get(address, params={"cursor": plan_id})
    assert [one["parameter"] for one in refused.json()["errors"]] == ["cursor"]


def test_only_what_is_asked_for_strikes(caller, plan_id):
    """One kind and one length give that kind and that length alone."""
    asked = {"kinds": ["storm"], "storm_nights": [3], "may_use": []}
    answer = caller.post(
        f"/v1/plans/{plan_id}/stress-tests", json=asked, headers={"Prefer": "wait=60"}
    )
    blows = answer.json()["result"]["blows"]
    assert {(blow["kind"], blow["nights"]) for blow in blows} == {("storm", 3)}
    name = answer.json()["stress_test_id"]
    assert caller.delete(f"/v1/stress-tests/{name}").status_code == 204
    assert caller.get(f"/v1/stress-tests/{name}").status_code == 404


@pytest.mark.parametrize(
    ("asked", "pointer"),
    [
        ({"kinds": ["avalanche"]}, "/kinds/0"),
        ({"storm_nights": [0]}, "/storm_nights/0"),
        ({"seconds": 1}, "/seconds"),
        ({"odds": {}}, "/odds"),
        ({"odds": {"storms": [{"place": "moon", "share": 0.1}]}}, "/odds/storms/0/place"),
        (
            {"odds": {"storms": [{"place": "camp-1", "share": 0.9, "mean_days": 2}]}},
            "/odds/storms/0/mean_days",
        ),
    ],
)
def test_a_faulty_question_is_refused_with_its_place(caller, plan_id, asked, pointer):
    """Each fault names the field, or the object that lacks it."""
    answer = caller.post(f"/v1/plans/{plan_id}/stress-tests", json=asked)
    assert answer.status_code == 422
    assert answer.json()["errors"][0]["pointer"] == pointer


def test_odds_are_those_of_the_chances_given(caller, plan_id):
    """Where it never storms everything holds; where it does, each chance has its error."""
    certain = {"storms": [{"place": "camp-1", "share": 0}], "scenarios": 1000}
    stormy = {"storms": [{"place": "camp-2", "share": 0.3, "mean_days": 2}], "scenarios": 5000}
    found = []
    for chances in (certain, stormy, stormy):
        answer = caller.post(
            f"/v1/plans/{plan_id}/stress-tests",
            json={"kinds": ["stove"], "odds": chances},
            headers={"Prefer": "wait=60"},
        )
        found.append(answer.json()["result"]["odds"])
    assert [group["everything"]["chance"] for group in found[0]] == [1.0]
    (group,) = found[1]
    assert 0 < group["food"]["chance"] < 1
    assert 0 < group["food"]["standard_error"] < 0.01
    assert group["food"]["low"] < group["food"]["chance"] < group["food"]["high"]
    assert group["one_more_night"][0]["gain"] > 0
    assert found[1] == found[2]


def test_spoilt_sets_and_slow_legs_lower_the_odds(caller, plan_id):
    """In calm weather everything holds; each of the two makes that less likely by itself."""
    leg = SMALLEST_REQUEST["route"]["legs"][0]
    calm = {"storms": [{"place": "camp-1", "share": 0}], "scenarios": 1000}
    asked = (
        {"spoilt": [{"place": "camp-2", "chance": 0.2}]},
        {"slow": [{"from": leg["to"], "to": leg["from"], "chance": 0.3}]},
    )
    for chances in asked:
        answer = caller.post(
            f"/v1/plans/{plan_id}/stress-tests",
            json={"kinds": ["stove"], "odds": {**calm, **chances}},
            headers={"Prefer": "wait=60"},
        )
        (group,) = answer.json()["result"]["odds"]
        assert group["everything"]["chance"] < 1, chances


def test_states_that_a_short_time_leaves_open_are_counted_and_listed(caller, plan_id):
    """Every blow has a verdict, and the counts of both kinds agree with the list."""
    answer = caller.post(
        f"/v1/plans/{plan_id}/stress-tests", json={"seconds": 2}, headers={"Prefer": "wait=60"}
    )
    result = answer.json()["result"]
    left = [blow for blow in result["blows"] if blow["verdict"] == "not_settled"]
    assert result["counts"]["not_settled"] == len(left) > 0
    assert result["states_not_settled"] == sum(not blow["same_as_before"] for blow in left)


@pytest.mark.parametrize("name", [NEVER, "nonsense", "plan_" + "0" * 26])
def test_a_test_that_never_was_is_not_found(caller, name):
    """Reading and deleting it answer 404."""
    assert caller.get(f"/v1/stress-tests/{name}").status_code == 404
    assert caller.delete(f"/v1/stress-tests/{name}").status_code == 404


def test_without_a_wait_the_test_is_accepted_and_runs(caller, plan_id):
    """The answer is 202 at once; the result is read later."""
    answer = caller.post(f"/v1/plans/{plan_id}/stress-tests", json={"kinds": ["stove"]})
    assert answer.status_code == 202
    until = time.monotonic() + 60
    while time.monotonic() < until:
        told = caller.get(answer.headers["location"]).json()
        if told["state"] == "done":
            break
        time.sleep(0.1)
    assert told["result"]["outcome"] == "stress_tested"


def test_a_key_is_needed_where_the_service_asks_for_keys():
    """A stress test tells of people and their loads, so that its routes are guarded."""
    assert router in GUARDED


@pytest.mark.slow
def test_the_guided_six_are_stressed_within_their_minute():
    """The whole test of the six-person example ends within 60 s, and says what it left open."""
    request = json.loads((Path("examples") / "guided-six.json").read_text())
    solved = json.loads(do_stored_work(json.dumps(request).encode(), JobLimits(60, 0), SILENT))
    assert solved["outcome"] == "solved"
    document = {"stress_test": {"seconds": 60}, "request": request, "plan": solved["plan"]}
    begun = time.monotonic()
    limits = JobLimits(60, 0)
    told = json.loads(do_stored_work(json.dumps(document).encode(), limits, SILENT))
    assert time.monotonic() - begun < 60
    assert sum(told["counts"].values()) == len(told["blows"]) > 300
    assert told["counts"]["stands"] > 0
    assert told["counts"]["no"] > 0
    assert told["weakest_day"]["no"] > 0


def test_a_test_that_is_asked_again_with_its_key_is_begun_once(caller, plan_id):
    """One key and one body are one stress test; with another body the key is refused."""
    address, headers = f"/v1/plans/{plan_id}/stress-tests", {"Idempotency-Key": "again"}
    first, second = (
        caller.post(address, json={"seconds": 2}, headers=headers).json()["stress_test_id"]
        for _ in range(2)
    )
    assert first == second
    refused = caller.post(address, json={"seconds": 3}, headers=headers)
    assert (refused.status_code, refused.json()["code"]) == (422, "idempotency_key_reused")
    assert caller.delete(f"/v1/stress-tests/{first}").status_code == 204


def test_a_test_goes_with_its_plan(caller):
    """It holds a copy of the request, with all that is said of people."""
    posted = caller.post("/v1/plans", json=SMALLEST_REQUEST, headers={"Prefer": "wait=50"})
    address = f"/v1/plans/{posted.json()['plan_id']}"
    test = caller.post(f"{address}/stress-tests", json={"seconds": 2}).json()
    of_test = f"/v1/stress-tests/{test['stress_test_id']}"
    assert caller.get(of_test).status_code == 200
    assert caller.delete(address).status_code == 204
    assert caller.get(of_test).status_code == 404
