"""Each request has an id and one line in the log, and its answer is counted."""

import json
import logging

import pytest

from service.http.watch import BUCKETS_SECONDS, RequestCounts
from service.jobs.work import PlanWork
from service.logs import JsonLines

PLAN_ID = "plan_" + "0" * 26


def test_an_id_that_the_caller_gives_comes_back(client):
    """A plain id is kept; what could break a line of the log is replaced by one of ours."""
    own = client.get("/v1/units", headers={"X-Request-Id": "booking-7.a_1"})
    assert own.headers["X-Request-Id"] == "booking-7.a_1"
    for bad in ("with blank", "x" * 101, 'a"b', ""):
        given = client.get("/v1/units", headers={"X-Request-Id": bad}).headers["X-Request-Id"]
        assert given != bad
        assert len(given) == 16


def test_the_line_of_a_request_says_what_came_of_it_and_no_secret(client, caplog):
    """Method, path, status and code with both ids; no query, no header, no body."""
    caplog.handler.setFormatter(JsonLines())
    with caplog.at_level(logging.INFO, logger="service.requests"):
        client.get(
            f"/v1/plans/{PLAN_ID}/loads?format=csv",
            headers={"X-Request-Id": "r7", "Authorization": "Bearer hw_secret"},
        )
    told = json.loads(caplog.text.splitlines()[-1])
    assert (told["request_id"], told["plan_id"]) == ("r7", PLAN_ID)
    assert told["message"].startswith(f"GET /v1/plans/{PLAN_ID}/loads 404 ")
    assert told["message"].endswith(" not_found")
    assert "secret" not in caplog.text
    assert "csv" not in caplog.text


def test_the_line_of_an_accepted_plan_names_it(client, finished, caplog):
    """Who has the id of the request finds the plan that it made, and the other way round."""
    caplog.handler.setFormatter(JsonLines())
    with caplog.at_level(logging.INFO, logger="service.requests"):
        answer = client.post("/v1/plans", json={}, headers={"X-Request-Id": "r8"})
    told = [json.loads(line) for line in caplog.text.splitlines() if '"r8"' in line]
    assert [line["plan_id"] for line in told if line["logger"] == "service.requests"] == [
        answer.json()["plan_id"]
    ]
    finished(answer.json()["plan_id"])


def test_what_monitors_read_leaves_no_line(client, caplog):
    """Health, readiness and figures are read every few seconds."""
    with caplog.at_level(logging.INFO, logger="service.requests"):
        for path in ("/healthz", "/readyz", "/metrics"):
            assert client.get(path).status_code == 200
    assert caplog.records == []


def test_a_solve_names_its_plan_in_the_log(client, finished, caplog):
    """What a worker says while it solves is told with the plan, and nothing later is."""
    caplog.handler.setFormatter(JsonLines())
    with caplog.at_level(logging.WARNING):
        plan_id = client.post("/v1/plans", json={"order": "fault"}).json()["plan_id"]
        finished(plan_id)
    lines = [json.loads(line) for line in caplog.text.splitlines() if line.startswith("{")]
    about = [line for line in lines if line["logger"] == PlanWork.__module__]
    assert {line["plan_id"] for line in about} == {plan_id}


def test_times_are_counted_in_buckets_that_add_up():
    """Each bucket has all answers that were as quick or quicker; the last has all."""
    counts = RequestCounts()
    for seconds in (0.001, BUCKETS_SECONDS[0], 0.3, 100.0):
        counts.note("GET", 200, seconds, None)
    told = dict(line.rsplit(" ", 1) for line in counts.lines() if not line.startswith("#"))
    assert told['haulwright_http_seconds_bucket{le="0.005"}'] == "2"
    assert told['haulwright_http_seconds_bucket{le="0.5"}'] == "3"
    assert told['haulwright_http_seconds_bucket{le="+Inf"}'] == "4"
    assert told['haulwright_http_answers_total{method="GET",status="200"}'] == "4"


@pytest.mark.parametrize("method", ["BREW", "GET"])
def test_refusals_are_counted_by_code_and_strange_methods_together(client, method):
    """A method of a caller's own making is no label of its own."""
    client.request(method, "/v1/nothing")
    told = client.get("/metrics").text
    assert ('method="other"' in told) == (method == "BREW")
    assert "BREW" not in told
    assert 'haulwright_http_refusals_total{code="not_found"} 1' in told


def test_an_answer_is_counted_as_it_goes_out(client, caplog):
    """What a condition or HEAD makes of it: 304, 412 with its code, and the method asked."""
    tag = client.get("/v1/units").headers["ETag"]
    with caplog.at_level(logging.INFO, logger="service.requests"):
        client.get("/v1/units", headers={"If-None-Match": tag})
        client.get("/v1/units", headers={"If-Match": '"other"'})
        client.head("/v1/units")
        client.head("/v1/units", headers={"If-None-Match": tag})
    lines = [record.getMessage() for record in caplog.records]
    assert [line.split()[2] for line in lines] == ["304", "412", "200", "304"]
    assert lines[1].endswith(" changed_since")
    assert lines[2].startswith("HEAD ")
    told = dict(line.rsplit(" ", 1) for line in client.get("/metrics").text.splitlines())
    counted = {
        ("GET", 200): "1",
        ("GET", 304): "1",
        ("GET", 412): "1",
        ("HEAD", 200): "1",
        ("HEAD", 304): "1",
    }
    for (method, status), count in counted.items():
        name = f'haulwright_http_answers_total{{method="{method}",status="{status}"}}'
        assert told[name] == count
    assert told['haulwright_http_refusals_total{code="changed_since"}'] == "1"
