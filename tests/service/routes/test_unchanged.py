"""If-Match: a change holds only while the plan is as its caller read it."""

import pytest

from service.http.representations import matches, tags_of
from service.routes.plan_documents import find_plan
from service.routes.unchanged import UNCHANGED
from tests.service.processes import until

RELEASE = {"released_by": "desk"}
CHANGES = [
    ("POST", "/cancel", None), ("POST", "/finish", None), ("POST", "/release", RELEASE),
    ("DELETE", "", None),
]  # fmt: skip


@pytest.fixture(scope="module")
def outdated(shared_client):
    """The address of a plan that is final, and its tag from before that."""
    asked = {"order": "until_finish", "reference": "r", "solve_seconds": 60}
    address = f"/v1/plans/{shared_client.post('/v1/plans', json=asked).json()['plan_id']}"
    until(lambda: shared_client.get(address).json()["state"] == "running")
    old = shared_client.get(address).headers["ETag"]
    shared_client.post(f"{address}/finish")
    until(lambda: shared_client.get(address).json()["state"] == "done")
    return address, old


@pytest.mark.parametrize("change", CHANGES, ids=lambda change: f"{change[0]} {change[1]}")
def test_a_change_with_an_old_tag_does_nothing(shared_client, outdated, change):
    """412 for a plan that was read while it was solved, and the plan is as it was."""
    method, path, body = change
    address, old = outdated
    answer = shared_client.request(method, address + path, json=body, headers={"If-Match": old})
    assert (answer.status_code, answer.json()["code"]) == (412, "changed_since")
    assert shared_client.get(address).json()["state"] == "done"
    assert shared_client.get(f"{address}/release").status_code == 404


@pytest.mark.parametrize("packing", ["gzip", "identity"])
def test_a_change_with_the_newest_tag_is_done(client, finished, packing):
    """Whichever way the plan was packed when it was read; and after that its tag is another."""
    filler = {"reference": "r" * 1200}
    plan_id = client.post("/v1/plans", json=filler).json()["plan_id"]
    finished(plan_id)
    address = f"/v1/plans/{plan_id}"
    tag = client.get(address, headers={"Accept-Encoding": packing}).headers["ETag"]
    assert tag.endswith('-gz"') == (packing == "gzip")
    headers = {"If-Match": f'"other", {tag}'}
    assert client.post(f"{address}/release", json=RELEASE, headers=headers).status_code == 200
    assert client.delete(address, headers={"If-Match": f"W/{tag}"}).status_code == 412
    assert client.delete(address, headers={"If-Match": "*"}).status_code == 204
    assert client.delete(address, headers={"If-Match": "*"}).status_code == 404


def test_no_header_is_no_condition():
    """A request without If-Match is done; one that names nothing that is a tag is not."""
    assert matches([], b"body")
    assert matches(tags_of(b"body"), b"body")
    assert not matches(["nonsense"], b"body")
    assert UNCHANGED.dependency is not None


@pytest.mark.parametrize("change", CHANGES, ids=lambda change: f"{change[0]} {change[1]}")
def test_a_plan_that_changes_behind_the_look_at_its_tag_is_left_alone(client, monkeypatch, change):
    """The condition holds in the moment of the change, not only when it was looked at."""
    asked = {"order": "until_finish", "reference": "r", "solve_seconds": 60}
    address = f"/v1/plans/{client.post('/v1/plans', json=asked).json()['plan_id']}"
    until(lambda: client.get(address).json()["state"] == "running")
    tag = client.get(address).headers["ETag"]

    def find_and_finish(wiring, plan_id):
        seen = find_plan(wiring, plan_id)
        wiring.wishes.finish(tenant_id=wiring.tenant_id, plan_id=plan_id)
        until(lambda: find_plan(wiring, plan_id).summary.state == "done")
        return seen

    monkeypatch.setattr("service.routes.unchanged.find_plan", find_and_finish)
    method, path, body = change
    answer = client.request(method, address + path, json=body, headers={"If-Match": tag})
    assert (answer.status_code, answer.json()["code"]) == (412, "changed_since")
    assert client.get(address).json()["state"] == "done"
    assert client.get(f"{address}/release").status_code == 404
