"""A plan is released for its reference, and a stored one is checked again."""

import hashlib

import pytest
from sqlalchemy import update

from api_schema.examples import SMALLEST_REQUEST
from api_schema.plan_check import PlanCheckAnswer
from api_schema.release import ReleaseAnswer, ReleaseListAnswer
from service.reports.made_with import versions_of_today
from service.routes import releases
from service.storage.database import writing
from service.storage.releases import Release
from service.storage.tables import PlanRow

WAIT = {"Prefer": "wait=30"}
BY = {"released_by": "operations desk"}


@pytest.fixture
def plan(client):
    """Makes a plan of a reference, solved."""

    def make(reference="r"):
        body = {} if reference is None else {"reference": reference}
        answer = client.post("/v1/plans", json=body, headers={"Prefer": "wait=30"})
        assert answer.status_code == 201, answer.text
        return answer.json()

    return make


def release(client, plan_id, **body):
    """The answer to a release."""
    return client.post(f"/v1/plans/{plan_id}/release", json=body or BY)


def test_a_release_says_who_when_and_what(client, plan):
    """It holds until another plan of its reference is released, and both can be read."""
    first, second = plan()["plan_id"], plan()["plan_id"]
    assert client.get(f"/v1/plans/{first}/release").status_code == 404
    told = ReleaseAnswer.model_validate(release(client, first).json())
    assert (told.plan_id, told.released_by, told.superseded_by) == (first, BY["released_by"], None)
    release(client, second)
    read = ReleaseAnswer.model_validate(client.get(f"/v1/plans/{first}/release").json())
    assert read == told.model_copy(update={"superseded_by": second, "holds": False})
    listed = client.get("/v1/releases", params={"reference": "r"}).json()
    found = ReleaseListAnswer.model_validate(listed).releases
    assert [one.plan_id for one in found] == [second, first]
    assert client.get("/v1/releases", params={"reference": "s"}).json() == {
        "releases": [],
        "next_cursor": None,
    }


def test_all_releases_are_read_page_by_page(client):
    """Whoever names neither limit nor cursor gets the newest hundred; the rest comes later."""
    for number in range(1, 104):
        client.app.state.wiring.releases.release(
            tenant_id="default",
            reference="r",
            plan_id=f"plan_{number:026}",
            released_by="desk",
            key_id=None,
            outcome=b"{}",
        )

    def page(**params) -> ReleaseListAnswer:
        answer = client.get("/v1/releases", params={"reference": "r", **params})
        assert answer.status_code == 200, answer.text
        return ReleaseListAnswer.model_validate(answer.json())

    first = page()
    assert [one.release_number for one in first.releases] == list(range(103, 3, -1))
    rest = page(cursor=first.next_cursor)
    assert [one.release_number for one in rest.releases] == [3, 2, 1]
    assert rest.next_cursor is None
    assert {one.superseded_by for one in rest.releases} == {first.releases[0].plan_id}
    assert [one.holds for one in rest.releases] == [False] * 3
    three = page(limit=3)
    assert len(three.releases) == 3
    assert page(limit=100, cursor=three.next_cursor).next_cursor is None
    assert page(limit=100, cursor="1").releases == []
    for params, fault in (({"limit": 0}, "limit"), ({"cursor": "plan_1"}, "cursor")):
        refused = client.get("/v1/releases", params={"reference": "r", **params})
        assert refused.status_code == 422
        assert [one["parameter"] for one in refused.json()["errors"]] == [fault]


def test_sheets_and_page_of_a_plan_name_the_one_of_another_line_that_was_released(caller):
    """Both are first plans of a reference; whoever prints the other one is told not to use it."""
    first, second = (
        caller.post("/v1/plans", json=SMALLEST_REQUEST | {"reference": "r"}, headers=WAIT)
        for _ in range(2)
    )
    assert (first.status_code, second.status_code) == (201, 201)
    first, second = first.json()["plan_id"], second.json()["plan_id"]

    def told(plan_id):
        sheets = caller.get(f"/v1/plans/{plan_id}/pages").text
        page = caller.get(f"/v1/plans/{plan_id}", headers={"Accept": "text/html"}).text
        return "SUPERSEDED by plan" in sheets, "Do not use this one" in page

    assert (told(first), told(second)) == ((False, False), (False, False))
    release(caller, first)
    assert (told(first), told(second)) == ((False, False), (True, True))
    release(caller, second)
    assert (told(first), told(second)) == ((True, True), (False, False))
    assert f"SUPERSEDED by plan {second}" in caller.get(f"/v1/plans/{first}/pages").text


def test_a_plan_that_is_released_again_is_not_superseded_by_itself(client, plan):
    """To go back to an earlier plan is a release of its own, and its first one names no other."""
    first, second = plan()["plan_id"], plan()["plan_id"]
    for plan_id in (first, second, first):
        release(client, plan_id)
    listed = client.get("/v1/releases", params={"reference": "r"}).json()["releases"]
    told = [(one["plan_id"], one["superseded_by"], one["holds"]) for one in listed]
    assert told == [(first, None, True), (second, first, False), (first, None, False)]


def test_a_release_has_a_time_to_the_millisecond():
    """The answer says when in UTC."""
    released = Release("r", 1, "plan_" + "0" * 26, "desk", None, 1_234, "0" * 64, None, holds=True)
    written = releases.release_answer(released).model_dump_json()
    assert '"released_at":"1970-01-01T00:00:01.234Z"' in written


def test_the_digest_is_of_the_outcome_as_it_is_answered(client, plan):
    """Whoever has the answer can prove that it is what was released."""
    plan_id = plan()["plan_id"]
    text = client.get(f"/v1/plans/{plan_id}").content
    outcome = text.partition(b'"outcome":')[2][:-1]
    digest = release(client, plan_id).json()["outcome_digest"]
    assert digest == hashlib.sha256(outcome).hexdigest()


def test_a_release_outlives_its_plan(client, plan):
    """The plan can be deleted with all that it says of people; the release stays in the list."""
    plan_id = plan()["plan_id"]
    release(client, plan_id)
    client.delete(f"/v1/plans/{plan_id}")
    (left,) = client.get("/v1/releases", params={"reference": "r"}).json()["releases"]
    assert left["plan_id"] == plan_id
    assert client.get(f"/v1/plans/{plan_id}/release").status_code == 404


def test_what_cannot_be_released_is_refused(client, plan):
    """A plan without a reference, one without an outcome, and a release by nobody."""
    assert release(client, plan(None)["plan_id"]).json()["code"] == "no_reference"
    waits = client.post("/v1/plans", json={"order": "hang", "reference": "r"}).json()["plan_id"]
    assert release(client, waits).json()["code"] == "no_result_yet"
    nobody = release(client, plan()["plan_id"], released_by="")
    assert (nobody.status_code, nobody.json()["errors"][0]["pointer"]) == (422, "/released_by")


def test_a_plan_carries_the_versions_that_made_it(client, plan):
    """They are today's for a new plan, null while it is open, and stay when today's change."""
    made, today = plan(), versions_of_today()
    assert made["wire_version"] == today.wire_version
    assert made["rules_version"] == today.rules_version
    waits = client.post("/v1/plans", json={"order": "hang"}).json()
    assert (waits["wire_version"], waits["rules_version"]) == (None, None)


def test_a_plan_of_an_earlier_version_stays_readable_and_is_checked_again(client, plan):
    """An outcome with fields that are no more is answered as stored, and judged today."""
    plan_id = plan()["plan_id"]
    old = b'{"outcome": "solved", "gone": 1, "plan": {"trips": []}}'
    engine = client.app.state.wiring.store._engine
    with writing(engine) as connection:
        connection.execute(
            update(PlanRow)
            .where(PlanRow.plan_id == plan_id)
            .values(outcome_document=old, wire_version="v0-1", rules_version="1")
        )
    answer = client.get(f"/v1/plans/{plan_id}")
    assert old in answer.content
    assert answer.json()["rules_version"] == "1"
    check = client.get(f"/v1/plans/{plan_id}/check")
    assert PlanCheckAnswer.model_validate(check.json()).check.passed
