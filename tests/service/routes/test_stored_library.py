"""Routes, gear lists, menus and rosters stored, read, changed and deleted by their callers."""

import json
from dataclasses import replace
from types import SimpleNamespace

import pytest

from api_schema.examples import STORED_GEAR_LIST, STORED_MENU, STORED_ROSTER, STORED_ROUTE
from api_schema.library_entry import EntryAnswer, LibraryAnswer
from service.errors import Fault, RequestFaults
from service.http.strict_json import MOST_VALUES
from service.jobs.desk_job import ENTRY, MOST_FAULTS_SENT

EXAMPLES = {
    "routes": STORED_ROUTE,
    "gear-lists": STORED_GEAR_LIST,
    "menus": STORED_MENU,
    "rosters": STORED_ROSTER,
}
ROSTER = "/v1/library/rosters/three"


def plan_with(client, **library):
    """A solved plan that takes something of the library."""
    return client.post("/v1/plans", json={"library": library}, headers={"Prefer": "wait=30"})


def version(number):
    """A version of the roster, as a request names it."""
    return {"entry_id": "three", "version": number}


@pytest.mark.parametrize("kind", EXAMPLES)
def test_each_kind_is_stored_as_it_was_written(client, kind):
    """What is read back has the parts of a request as they were sent, with title and reference."""
    address, sent = f"/v1/library/{kind}/one", EXAMPLES[kind]
    made = client.put(address, json=sent)
    assert made.status_code == 201, made.text
    read = client.get(address, headers={"Accept-Encoding": "identity"})
    told = EntryAnswer.model_validate_json(read.content)
    assert read.content == made.content
    assert read.headers["ETag"] == made.headers["ETag"]
    assert (told.kind, told.version, told.versions, told.frozen) == (kind, 1, [1], False)
    assert told.title == sent["title"]
    assert {name: told.content[name] for name in sent if name in told.content} == {
        name: part for name, part in sent.items() if name not in {"title", "reference"}
    }


def test_a_version_that_a_plan_used_is_frozen(client):
    """Before, it is replaced under its number; afterwards, a change is another version."""
    assert client.put(ROSTER, json=STORED_ROSTER).status_code == 201
    changed = STORED_ROSTER | {"title": "other"}
    assert client.put(ROSTER, json=changed).status_code == 200
    plan = plan_with(client, roster=version(1)).json()
    stored = client.get(f"/v1/plans/{plan['plan_id']}/request").json()
    assert stored == {"roster": STORED_ROSTER["roster"]}
    used = client.get(f"/v1/plans/{plan['plan_id']}/library").json()["entries"]
    assert used == [{"kind": "rosters", **version(1)}]
    assert client.get(ROSTER).json()["frozen"]
    two = {"roster": STORED_ROSTER["roster"][:2]}
    again = client.put(ROSTER, json=two)
    assert (again.status_code, again.json()["version"]) == (201, 2)
    assert client.get(ROSTER, params={"version": 1}).json()["content"]["roster"][2]
    assert plan_with(client, roster=version(2)).status_code == 201


def test_what_is_stored_takes_the_place_of_everything(client):
    """Title and reference that are not sent again are gone, as the description of PUT says."""
    named = {"title": "ours", "reference": "booking-1"}
    assert client.put(ROSTER, json=STORED_ROSTER | named).status_code == 201
    bare = {"roster": STORED_ROSTER["roster"]}
    changed = client.put(ROSTER, json=bare)
    assert (changed.status_code, changed.json()["version"]) == (200, 1)
    read = client.get(ROSTER).json()
    assert (read["title"], read["reference"]) == (None, None)
    described = client.get("/openapi.json").json()["paths"]["/v1/library/rosters/{entry_id}"]
    assert (
        "keeps no `title` and no `reference` that you leave out" in described["put"]["description"]
    )


def test_a_plan_outlives_what_it_used(client):
    """After the entry is deleted the plan is as it was, and no other plan can use it."""
    client.put(ROSTER, json=STORED_ROSTER)
    plan = plan_with(client, roster=version(1)).json()
    assert client.delete(ROSTER).status_code == 204
    assert client.get(ROSTER).status_code == 404
    assert client.delete(ROSTER).status_code == 404
    request = client.get(f"/v1/plans/{plan['plan_id']}/request").json()
    assert request["roster"] == STORED_ROSTER["roster"]
    refused = plan_with(client, roster=version(1))
    assert refused.status_code == 422
    assert [f["pointer"] for f in refused.json()["errors"]] == ["/library/roster"]
    assert client.put(ROSTER, json=STORED_ROSTER).json()["version"] == 2


def test_a_change_of_what_somebody_else_changed_is_refused(client):
    """If-Match names what was read, compressed or not; If-None-Match: * only makes a new one."""
    tag = client.put(ROSTER, json=STORED_ROSTER).headers["ETag"]
    new = client.put(ROSTER, json=STORED_ROSTER, headers={"If-None-Match": "*"})
    assert (new.status_code, new.json()["code"]) == (412, "changed_since")
    other = STORED_ROSTER | {"title": "other"}
    zipped = f'{tag[:-1]}-gz"'
    assert client.put(ROSTER, json=other, headers={"If-Match": zipped}).status_code == 200
    for method in ("PUT", "DELETE"):
        late = client.request(method, ROSTER, json=STORED_ROSTER, headers={"If-Match": tag})
        assert late.status_code == 412
    assert client.get(ROSTER).json()["title"] == "other"
    absent = client.put("/v1/library/rosters/no", json=other, headers={"If-Match": tag})
    assert absent.status_code == 412


def test_every_line_of_a_condition_counts(client):
    """A second line of If-Match or If-None-Match is read as well as the first."""
    tag = client.put(ROSTER, json=STORED_ROSTER).headers["ETag"]
    for lines, status in (
        ([("If-Match", '"other"'), ("If-Match", tag)], 200),
        ([("If-Match", '"other"'), ("If-Match", '"another"')], 412),
        ([("If-None-Match", '"other"'), ("If-None-Match", tag)], 412),
        ([("If-None-Match", '"other"')], 200),
    ):
        answer = client.put(ROSTER, json=STORED_ROSTER, headers=lines)
        assert answer.status_code == status, lines
    lines = [("If-Match", '"other"'), ("If-Match", tag)]
    assert client.request("DELETE", ROSTER, headers=lines).status_code == 204


def test_if_none_match_names_states_that_are_not_to_be_changed(client):
    """A tag, weak or packed, that fits the newest version refuses; where there is none, none fits.

    RFC 9110, section 13.1.2.
    """
    absent = client.put(ROSTER, json=STORED_ROSTER, headers={"If-None-Match": '"any"'})
    assert absent.status_code == 201
    tag = absent.headers["ETag"]
    for given in (tag, f"W/{tag}", f'{tag[:-1]}-gz"', f'"other", {tag}', "*"):
        answer = client.put(ROSTER, json=STORED_ROSTER, headers={"If-None-Match": given})
        assert (answer.status_code, answer.json()["code"]) == (412, "changed_since")


def test_the_list_goes_on_where_its_page_ended(client):
    """Every entry is on one page, by kind and id, and a kind can be asked for."""
    for kind, sent in EXAMPLES.items():
        client.put(f"/v1/library/{kind}/one", json=sent)
    seen, cursor = [], None
    for _ in range(4):
        query = {"limit": 3} | ({"cursor": cursor} if cursor else {})
        page = LibraryAnswer.model_validate_json(client.get("/v1/library", params=query).content)
        seen += [entry.kind for entry in page.entries]
        cursor = page.next_cursor
        if cursor is None:
            break
    assert seen == sorted(EXAMPLES)
    menus = client.get("/v1/library", params={"kind": "menus"}).json()["entries"]
    assert [entry["entry_id"] for entry in menus] == ["one"]


def test_faults_of_an_entry_point_into_it(client):
    """Each is told before anything is stored, and an id that cannot be one is a fault too."""
    people = [STORED_ROSTER["roster"][0] | {"pack_cap": "27"}]
    refused = client.put(ROSTER, json={"roster": people, "people": 3})
    assert refused.status_code == 422
    assert {(f["pointer"], f["code"]) for f in refused.json()["errors"]} == {
        ("/roster/0/pack_cap", "no_unit"),
        ("/people", "unknown_field"),
    }
    assert client.get(ROSTER).status_code == 404
    assert client.put("/v1/library/rosters/-", json=STORED_ROSTER).status_code == 422


def test_the_same_key_gives_the_plan_that_used_the_library(client):
    """A request that is sent twice makes one plan, with one use."""
    client.put(ROSTER, json=STORED_ROSTER)
    sent = {"json": {"library": {"roster": version(1)}}, "headers": {"Idempotency-Key": "k"}}
    first, again = client.post("/v1/plans", **sent), client.post("/v1/plans", **sent)
    assert first.json()["plan_id"] == again.json()["plan_id"]


@pytest.mark.parametrize(
    ("address", "body"),
    [
        ("/v1/requirements", {"library": {"roster": version(7)}}),
        ("/v1/plan-checks", {"request": {"library": {"roster": version(7)}}, "plan": {}}),
        ("/v1/calendars", {"request": {"library": {"roster": version(7)}}, "days": 5}),
    ],
)
def test_every_address_that_takes_a_request_looks_into_the_library(client, address, body):
    """Each says that the version is not there, at the place where the caller named it."""
    within = "/request" if "request" in body else ""
    (fault,) = client.post(address, json=body).json()["errors"]
    assert (fault["pointer"], fault["code"]) == (f"{within}/library/roster", "unknown_id")


def test_a_fault_in_a_stored_thing_points_to_its_name(client):
    """The name is found however its letters are written in the body."""
    client.put(ROSTER, json=STORED_ROSTER)
    body = '{"faults": 1, "\\u006cibrary": {"roster": {"entry_id": "three", "version": 1}}}'
    answer = client.post("/v1/plans", content=body, headers={"Content-Type": "application/json"})
    (fault,) = answer.json()["errors"]
    assert fault["pointer"] == "/library/roster"
    assert "roster three, version 1, at /roster/0/pack_cap." in fault["detail"]


class OneDesk:
    """Keeps what it is asked, and finds as many faults as an answer can say of."""

    def __init__(self) -> None:
        self.asked = []

    def ask(self, question: bytes) -> bytes:
        """Refuse all of it, as a desk does that saw to the pointers."""
        self.asked.append(question)
        faults = tuple(Fault(f"/n{n}", "unknown_field", "No.") for n in range(MOST_FAULTS_SENT))
        raise RequestFaults(faults, left_out=99_000 - MOST_FAULTS_SENT)


def test_the_process_that_answers_reads_nothing_of_an_entry(client, monkeypatch):
    """A body of very many unknown names goes to a desk as it is, and its faults go out as told."""
    desk = OneDesk()
    app = client.app
    monkeypatch.setattr(app.state, "wiring", replace(app.state.wiring, desks=desk))
    body = json.dumps({f"n{n}": 1 for n in range(99_000)}).encode()

    def read(*_, **__):
        raise AssertionError("this process stands still while it reads")

    monkeypatch.setattr("service.http.problem_answers.json", SimpleNamespace(loads=read))
    monkeypatch.setattr("service.http.problem_answers.resolved", read)
    monkeypatch.setattr("service.jobs.desk_job.read_json_object", read)
    kind = {"Content-Type": "application/json"}
    answer = client.put("/v1/library/menus/one", content=body, headers=kind)
    monkeypatch.undo()
    assert desk.asked == [ENTRY + b"menus\n" + body]
    told = answer.json()
    assert (answer.status_code, told["errors_left_out"]) == (422, 99_000 - len(told["errors"]))
    assert told["errors"][0]["pointer"] == "/n0"


def test_faults_of_an_entry_point_to_what_was_sent(client):
    """The desk leads the pointer of a missing field back to what is there."""
    answer = client.put("/v1/library/routes/one", json={"route": {"places": []}, "ruote": 1})
    told = {(fault["pointer"], fault["code"]) for fault in answer.json()["errors"]}
    assert ("/ruote", "unknown_field") in told
    assert ("/route", "missing") in told
    many = {"gear": [0] * (MOST_VALUES + 2)}
    refused = client.put("/v1/library/gear-lists/one", json=many)
    assert (refused.status_code, refused.json()["code"]) == (422, "too_much_work")
