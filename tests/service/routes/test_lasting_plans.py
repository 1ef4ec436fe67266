"""Plans that are asked for twice, found again by filters, read back, and deleted."""

import threading
import time
from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime, timedelta

import pytest

JSON = {"Content-Type": "application/json"}


def once(client, key, **document):
    """The answer to a request with a key."""
    return client.post("/v1/plans", json=document, headers={"Idempotency-Key": key})


def test_one_key_makes_one_plan(client):
    """The same key with the same body gives the same plan, in whatever order its members are."""
    first = once(client, "k1", reference="a", title="t")
    again = client.post(
        "/v1/plans",
        content=b'{"title": "t", "reference": "a"}',
        headers=JSON | {"Idempotency-Key": "k1"},
    )
    assert (first.status_code, again.json()["plan_id"]) == (202, first.json()["plan_id"])
    assert again.headers["Location"] == first.headers["Location"]
    assert once(client, "k2", reference="a", title="t").json()["plan_id"] != first.json()["plan_id"]
    assert len(client.get("/v1/plans").json()["plans"]) == 2


def test_a_key_with_another_body_is_refused(client):
    """A key stands for one request; with another it is 422, and no plan is made."""
    once(client, "k", reference="a")
    other = once(client, "k", reference="b")
    assert (other.status_code, other.json()["code"]) == (422, "idempotency_key_reused")
    assert len(client.get("/v1/plans").json()["plans"]) == 1


@pytest.mark.parametrize("key", ["", "x" * 256, "with blank"])
def test_a_key_is_visible_ascii(client, key):
    """An empty key, a long one and one with a blank are faults of the header."""
    answer = once(client, key)
    assert answer.status_code == 422
    assert [fault["parameter"] for fault in answer.json()["errors"]] == ["Idempotency-Key"]


@pytest.mark.parametrize("callers", [40, pytest.param(300, marks=pytest.mark.slow)])
def test_many_at_once_with_one_key_make_one_plan(client, callers):
    """Concurrent requests with one key are all accepted, as one plan."""
    gate = threading.Barrier(20)

    def ask(number):
        if number < 20:
            gate.wait(timeout=20)
        return once(client, "same", reference="r")

    with ThreadPoolExecutor(20) as pool:
        answers = list(pool.map(ask, range(callers)))
    assert {answer.status_code for answer in answers} <= {201, 202}
    assert len({answer.json()["plan_id"] for answer in answers}) == 1
    assert len(client.get("/v1/plans?limit=100").json()["plans"]) == 1


def test_the_request_of_a_plan_is_read_back(client):
    """What was sent comes back, and an unknown plan has none."""
    document = {"reference": "é", "order": [1, 2]}
    plan_id = client.post("/v1/plans", json=document).json()["plan_id"]
    answer = client.get(f"/v1/plans/{plan_id}/request")
    assert (answer.status_code, answer.json()) == (200, document)
    assert answer.headers["Content-Type"] == "application/json"
    assert client.get("/v1/plans/plan_nothing/request").status_code == 404


def test_a_deleted_plan_is_gone_whole(client, finished):
    """After DELETE there is no plan, no request, no view, and no key that leads to it."""
    plan_id = once(client, "k", order="solve").json()["plan_id"]
    finished(plan_id)
    gone = client.delete(f"/v1/plans/{plan_id}")
    assert (gone.status_code, gone.content) == (204, b"")
    for view in ("", "/request", "/loads", "/events"):
        answer = client.get(f"/v1/plans/{plan_id}{view}", headers={"Accept": "*/*"})
        assert answer.status_code == 404
    assert client.delete(f"/v1/plans/{plan_id}").status_code == 404
    assert client.get("/v1/plans").json()["plans"] == []
    assert once(client, "k", order="solve").json()["plan_id"] != plan_id


def test_a_plan_that_runs_can_be_deleted(client):
    """Its solve ends without a result, and the service goes on."""
    plan_id = client.post("/v1/plans", json={"order": "sleep", "seconds": 60}).json()["plan_id"]
    until = time.monotonic() + 20
    while client.get(f"/v1/plans/{plan_id}").json()["state"] != "running":
        assert time.monotonic() < until
        time.sleep(0.05)
    assert client.delete(f"/v1/plans/{plan_id}").status_code == 204
    assert client.get("/healthz").status_code == 200


def test_filters_of_the_list(client, finished):
    """State, reference and time of acceptance are filters, and hold together."""
    before = datetime.now(UTC) - timedelta(seconds=5)
    plan_id = client.post("/v1/plans", json={"reference": "a"}).json()["plan_id"]
    state = finished(plan_id)["state"]

    def found(**query):
        return [plan["plan_id"] for plan in client.get("/v1/plans", params=query).json()["plans"]]

    assert found(state=state) == [plan_id]
    assert found(state="queued") == []
    assert found(state=state, reference="b") == []
    assert found(created_from=before.isoformat()) == [plan_id]
    assert found(created_before=before.isoformat()) == []
    assert client.get("/v1/plans?state=lost").status_code == 422


@pytest.mark.parametrize(
    "wrong", ["yesterday", "0.5", "-3.1e-85", "1700000000", "2027-03-01", "", "nan"]
)
def test_a_time_that_is_none_is_told_what_is_needed(client, wrong):
    """A count of seconds is none either; the text names the form."""
    answer = client.get("/v1/plans", params={"created_from": wrong})
    assert answer.status_code == 422
    (fault,) = answer.json()["errors"]
    assert (fault["parameter"], fault["code"]) == ("created_from", "not_a_date_and_time")
    assert "2027-03-01T00:00:00Z" in fault["detail"]
