"""A request that comes again with its key gets what it began, whatever was changed meanwhile."""

import gzip
import json
import time

import pytest
from fastapi.testclient import TestClient

from api_schema.examples import STORED_ROSTER
from service.app import ROUTES, create_app
from service.errors import ServiceProblem
from service.http.openapi import openapi_document
from service.routes.once import sent_digest
from service.storage.idempotency import BegunWork
from tests.service.fake_translation import TRANSLATION

ROSTER = "/v1/library/rosters/three"
OF_LIBRARY = {"library": {"roster": {"entry_id": "three", "version": 1}}}
SOLVED = {
    "outcome": "solved",
    "reference": None,
    "plan": {"trips": [], "stock": [], "flights": []},
}
SOLVABLE = {"order": "given", "given": SOLVED, "route": {"places": [], "legs": []}}
BEGINS_WORK = ("create_plan", "create_replan", "create_comparison", "create_stress_test")


@pytest.fixture
def settings(settings):
    """One plan is solved at a time."""
    return settings.model_copy(update={"solve_workers": 1})


@pytest.fixture
def solved_ids(client, finished):
    """The names of two solved plans."""
    names = [client.post("/v1/plans", json=SOLVABLE).json()["plan_id"] for _ in range(2)]
    assert [finished(name)["outcome_kind"] for name in names] == ["solved", "solved"]
    return names


@pytest.fixture
def busy(client):
    """All later plans wait behind one that takes long."""
    keep_busy(client)


@pytest.fixture
def plan_ids(client, solved_ids):
    """The names of two solved plans; all later ones wait behind one that takes long."""
    keep_busy(client)
    return solved_ids


@pytest.fixture
def plan_id(plan_ids):
    """The name of a solved plan."""
    return plan_ids[0]


def keep_busy(client):
    """Have a plan solved that takes long, so that all later ones wait."""
    long = client.post("/v1/plans", json={"order": "sleep", "seconds": 9}).json()["plan_id"]
    until = time.monotonic() + 20
    while client.get(f"/v1/plans/{long}").json()["state"] != "running":
        assert time.monotonic() < until
        time.sleep(0.02)


def send(client, address, body, *, key="k", **more):
    """The answer to a body that is sent with a key."""
    headers = {"Content-Type": "application/json", "Idempotency-Key": key, **more}
    content = body if isinstance(body, bytes) else json.dumps(body).encode()
    return client.post(address, content=content, headers=headers)


def begun(answer):
    """The address of what was begun."""
    assert answer.status_code in (201, 202), answer.text
    return answer.headers["Location"]


def compared(base):
    """A comparison of a request with one variant of it."""
    return {"base": base, "variants": [{"name": "other", "patch": {"reference": "other"}}]}


def bodies_of(plan_id):
    """Each address that begins work, with a body that it takes."""
    return {
        "/v1/plans": {"reference": "r"},
        "/v1/comparisons": compared({"reference": "r"}),
        f"/v1/plans/{plan_id}/replans": {},
        f"/v1/plans/{plan_id}/stress-tests": {},
    }


ADDRESSES = list(bodies_of("{plan_id}"))


@pytest.mark.parametrize("name", ["near_plan", "start_plan"])
@pytest.mark.parametrize("address", ["/v1/plans", "/v1/comparisons"])
def test_a_former_plan_may_go(client, plan_id, address, name):
    """A body that names a plan which was deleted meanwhile is still the same request."""
    body = {"options": {name: {"plan_id": plan_id}}}
    body = body if address == "/v1/plans" else compared(body)
    first = begun(send(client, address, body))
    assert client.delete(f"/v1/plans/{plan_id}").status_code == 204
    assert begun(send(client, address, body)) == first
    refused = send(client, address, body, key="another")
    assert (refused.status_code, refused.json()["errors"][0]["code"]) == (422, "unknown_id")


@pytest.mark.usefixtures("busy")
@pytest.mark.parametrize("address", ["/v1/plans", "/v1/comparisons"])
def test_an_entry_of_the_library_may_go(client, address):
    """The same holds for what a body names of the library."""
    assert client.put(ROSTER, json=STORED_ROSTER).status_code == 201
    body = OF_LIBRARY if address == "/v1/plans" else compared(OF_LIBRARY)
    first = begun(send(client, address, body))
    assert client.delete(ROSTER).status_code == 204
    assert begun(send(client, address, body)) == first
    assert send(client, address, body, key="another").status_code == 422


def test_the_plan_of_a_replan_may_go(client, plan_id):
    """The re-plan stays when the plan that was followed is deleted, and so does its key."""
    address = f"/v1/plans/{plan_id}/replans"
    first = begun(send(client, address, {}))
    assert client.delete(f"/v1/plans/{plan_id}").status_code == 204
    assert begun(send(client, address, {})) == first
    assert send(client, address, {}, key="another").status_code == 404


def test_a_stress_test_goes_with_its_plan_and_its_key_too(client, plan_id):
    """Nothing of it is left that could be given again."""
    address = f"/v1/plans/{plan_id}/stress-tests"
    begun(send(client, address, {}))
    assert client.delete(f"/v1/plans/{plan_id}").status_code == 204
    again = send(client, address, {})
    assert (again.status_code, again.json()["code"]) == (404, "not_found")


@pytest.mark.parametrize("address", ADDRESSES)
def test_what_was_begun_is_given_again_without_a_desk_or_room(
    client, plan_id, monkeypatch, address
):
    """A repetition is not judged again: not by a desk, and not by how many plans wait."""
    wiring = client.app.state.wiring
    path, body = address.format(plan_id=plan_id), bodies_of("{plan_id}")[address]
    first = begun(send(client, path, body))

    def refuse(*_, **__):
        raise ServiceProblem("too_busy")

    monkeypatch.setattr(wiring.desks, "ask", refuse)
    monkeypatch.setattr(wiring.store, "accept", refuse)
    monkeypatch.setattr(wiring.store.room, "require", refuse)
    assert begun(send(client, path, body)) == first
    assert send(client, path, body, key="another").status_code == 503


def test_other_settings_change_nothing_for_what_was_begun(settings):
    """An address of webhooks that is no longer allowed refuses new requests only."""
    body = {"order": "sleep", "seconds": 9, "webhook_url": "http://10.0.0.1/hook"}
    before = settings.model_copy(update={"webhook_secret": "s" * 40, "webhook_targets": "any"})
    with TestClient(create_app(before, TRANSLATION)) as caller:
        first = begun(send(caller, "/v1/plans", body))
        compared_first = begun(send(caller, "/v1/comparisons", compared(body), key="c"))
    with TestClient(create_app(settings, TRANSLATION)) as caller:
        assert begun(send(caller, "/v1/plans", body)) == first
        assert begun(send(caller, "/v1/comparisons", compared(body), key="c")) == compared_first
        assert send(caller, "/v1/plans", body, key="another").status_code == 422


def test_a_repetition_waits_and_may_be_packed(client, solved_ids, finished):
    """The same body in gzip is the same request, and `Prefer: wait` holds for it."""
    plan_id, _ = solved_ids
    body = {"options": {"near_plan": {"plan_id": plan_id}}, "order": "sleep", "seconds": 0.5}
    first = begun(send(client, "/v1/plans", body))
    client.delete(f"/v1/plans/{plan_id}")
    packed = gzip.compress(json.dumps(body).encode())
    more = {"Content-Encoding": "gzip", "Prefer": "wait=20"}
    again = send(client, "/v1/plans", packed, **more)
    assert (again.status_code, begun(again)) == (201, first)
    assert again.headers["Preference-Applied"] == "wait=20"
    assert again.json() == finished(first.rpartition("/")[2])


def test_a_request_written_in_another_way_is_looked_at_again(client, plan_id):
    """In another order of its members it is the same request, as long as it can still be read."""
    body = {"reference": "r", "options": {"near_plan": {"plan_id": plan_id}}}
    other = dict(reversed(body.items()))
    first = begun(send(client, "/v1/plans", body))
    assert begun(send(client, "/v1/plans", other)) == first
    client.delete(f"/v1/plans/{plan_id}")
    assert send(client, "/v1/plans", other).status_code == 422
    assert begun(send(client, "/v1/plans", body)) == first


@pytest.mark.parametrize("address", ADDRESSES)
def test_a_key_is_for_one_address(client, plan_ids, address):
    """With the same key anything else is refused, be it the same body for another plan."""
    plan_id, other_id = plan_ids
    used = address.format(plan_id=plan_id)
    begun(send(client, used, bodies_of(plan_id)[used]))
    others = bodies_of(plan_id) | bodies_of(other_id)
    assert len(others) == 6
    for path, body in others.items():
        answer = send(client, path, body)
        if path == used:
            begun(answer)
        else:
            assert (answer.status_code, answer.json()["code"]) == (422, "idempotency_key_reused")


def test_a_key_ends_with_what_it_began(client, plan_id):
    """After a deletion by the caller the same request begins anew."""
    for address, body in bodies_of(plan_id).items():
        if "comparisons" not in address:
            first = begun(send(client, address, body, key=address))
            assert client.delete(first).status_code == 204
            assert begun(send(client, address, body, key=address)) != first


@pytest.mark.usefixtures("busy")
def test_the_key_of_a_comparison_ends_with_the_plan_of_its_base(client):
    """That of a variant may go: its row says so, and no plan is begun in its place."""
    body = compared({"reference": "r"})
    first = send(client, "/v1/comparisons", body)
    base, variant = (row["plan_id"] for row in first.json()["rows"])
    assert client.delete(f"/v1/plans/{variant}").status_code == 204
    again = send(client, "/v1/comparisons", body)
    assert begun(again) == begun(first)
    assert [row["state"] == "deleted" for row in again.json()["rows"]] == [False, True]
    queued = client.get("/v1/plans?state=queued").json()["plans"]
    assert [plan["plan_id"] for plan in queued] == [base]
    assert client.delete(f"/v1/plans/{base}").status_code == 204
    assert begun(send(client, "/v1/comparisons", body)) != begun(first)


def test_a_variant_that_had_no_room_gets_no_plan_later(settings):
    """The comparison says that it was not accepted, and a repetition changes nothing of that."""
    full = settings.model_copy(update={"queue_limit": 1})
    body = compared({"reference": "r"})
    with TestClient(create_app(full, TRANSLATION)) as caller:
        keep_busy(caller)
        first = send(caller, "/v1/comparisons", body)
        base, variant = (row["plan_id"] for row in first.json()["rows"])
        assert (base is None, variant) == (False, None)
        assert caller.post(f"/v1/plans/{base}/cancel").status_code < 300
        assert begun(send(caller, "/v1/comparisons", body)) == begun(first)
        assert caller.get("/v1/plans?state=queued").json()["plans"] == []


@pytest.mark.usefixtures("busy")
def test_a_comparison_that_was_begun_in_part_is_begun_to_the_end(client, monkeypatch):
    """Where the service ended between its plans and the comparison, the next try goes on."""
    body, wiring = compared({"reference": "r"}), client.app.state.wiring

    def end(*_, **__):
        raise ServiceProblem("storage_unavailable")

    with monkeypatch.context() as planted:
        planted.setattr(wiring.comparisons, "add", end)
        assert send(client, "/v1/comparisons", body).status_code == 503
    queued = client.get("/v1/plans?state=queued").json()["plans"]
    rows = send(client, "/v1/comparisons", body).json()["rows"]
    assert {row["plan_id"] for row in rows} == {plan["plan_id"] for plan in queued}
    assert len(queued) == len(client.get("/v1/plans?state=queued").json()["plans"]) == 2


@pytest.mark.parametrize("address", ADDRESSES)
def test_a_request_without_a_key_is_looked_up_nowhere(client, plan_id, monkeypatch, address):
    """It costs nothing to whoever sends no key."""

    def look(*_, **__):
        raise ZeroDivisionError("it was looked up")

    monkeypatch.setattr(BegunWork, "plan_of", look)
    path = address.format(plan_id=plan_id)
    assert client.post(path, json=bodies_of(plan_id)[path]).status_code in (201, 202)
    assert send(client, path, bodies_of(plan_id)[path]).status_code == 500


def test_a_digest_tells_address_and_body_apart():
    """What stands at the end of an address is not what stands at the beginning of a body."""
    sent = [("/v1/plans", b"{}"), ("/v1/plans", b"{} "), ("/v1/plans{", b"}"), ("/v1/é", b"{}")]
    digests = {sent_digest(*one) for one in sent}
    assert len(digests) == len(sent)
    assert {len(digest) for digest in digests} == {64}
    assert sent_digest("/v1/plans", b"{}") in digests


def test_the_header_is_described_in_the_same_words_everywhere():
    """Whatever begins work takes it, and says of it what all others say."""
    headers = {
        operation["operationId"]: next(
            one for one in operation["parameters"] if one["name"] == "Idempotency-Key"
        )
        for path in openapi_document(ROUTES)["paths"].values()
        for operation in path.values()
        if {"201", "202"} <= set(operation["responses"])
    }
    assert set(headers) == set(BEGINS_WORK)
    assert len({json.dumps(header) for header in headers.values()}) == 1
