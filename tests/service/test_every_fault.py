"""Every fault of a body at once, and each cause once, as the service answers."""

from __future__ import annotations

import copy
from typing import Any

import pytest
from fastapi.testclient import TestClient

from api_schema.examples import SMALLEST_REQUEST
from service.app import create_app
from service.settings import Settings
from service.translation import TRANSLATION


@pytest.fixture(scope="module", params=["webhooks off", "webhooks on"])
def caller(request, tmp_path_factory):
    """A caller of the service as it is run, with and without webhooks."""
    options = {"webhook_secret": "s" * 40} if request.param == "webhooks on" else {}
    settings = Settings(database=tmp_path_factory.mktemp("data") / "plans.sqlite3", **options)
    with TestClient(create_app(settings, TRANSLATION)) as client:
        yield client


def changed(**members: object) -> dict[str, Any]:
    """The smallest request with other members."""
    return copy.deepcopy(SMALLEST_REQUEST) | copy.deepcopy(members)


def told(answer: Any) -> set[tuple[str, str]]:
    """Pointer and code of each fault; none is there twice."""
    assert answer.status_code == 422, answer.text
    found = [(fault["pointer"], fault["code"]) for fault in answer.json()["errors"]]
    assert len(set(found)) == len(found), found
    return set(found)


OFF = ("/webhook_url", "webhooks_off")


def sends_webhooks(caller: TestClient) -> bool:
    """Whether this service sends any."""
    return bool(caller.app.state.wiring.settings.webhook_secrets())


@pytest.mark.parametrize(("url", "code"), [("", "too_short"), (5, "wrong_type")])
def test_an_address_of_a_webhook_that_is_no_text_for_one(caller, url, code):
    """What the text cannot be is told, and that none is sent; nothing of where it would lead."""
    answer = caller.post("/v1/plans", json=changed(webhook_url=url))
    more = set() if sends_webhooks(caller) else {OFF}
    assert told(answer) == {("/webhook_url", code)} | more


@pytest.mark.parametrize("url", ["https://trips.example/x", "http://trips.example/x"])
def test_a_webhook_that_is_not_sent_comes_with_every_other_fault(caller, url):
    """At each route that takes one: with the faults of the wire, and of what was read behind."""
    body = changed(roster=ROSTER, webhook_url=url, titel="x")
    others = {(CAP, "no_unit"), ("/titel", "unknown_field")}
    refused = set()
    if not sends_webhooks(caller):
        refused = {OFF}
    elif url.startswith("http:"):
        refused = {("/webhook_url", "webhook_url_refused")}
    assert told(caller.post("/v1/plans", json=body)) == others | refused
    variants = [{"name": "a", "edit": []}]
    compared = caller.post("/v1/comparisons", json={"base": body, "variants": variants})
    within = {(f"/base{pointer}", code) for pointer, code in others | refused}
    assert told(compared) == within | {("/variants/0/edit", "unknown_field")}


NEVER = {"plan_id": "plan_" + "0" * 26}
NOWHERE = {"entry_id": "none", "version": 1}
ROSTER = [SMALLEST_REQUEST["roster"][0] | {"pack_cap": "27"}, *SMALLEST_REQUEST["roster"][1:]]
CAP = "/roster/0/pack_cap"


def test_former_plans_that_nobody_knows_hide_nothing(caller):
    """Both are told, and what is wrong with the rest."""
    options = {"near_plan": NEVER, "start_plan": NEVER}
    assert told(caller.post("/v1/plans", json=changed(options=options, roster=ROSTER))) == {
        ("/options/near_plan/plan_id", "unknown_id"),
        ("/options/start_plan/plan_id", "unknown_id"),
        (CAP, "no_unit"),
    }
    assert told(caller.post("/v1/plans", json=changed(options=options))) == {
        ("/options/near_plan/plan_id", "unknown_id"),
        ("/options/start_plan/plan_id", "unknown_id"),
    }


def test_a_former_plan_that_nobody_knows_hides_no_webhook(caller):
    """Where webhooks are off, and where the address is refused."""
    body = changed(options={"near_plan": NEVER}, webhook_url="http://trips.example/x")
    found = told(caller.post("/v1/plans", json=body))
    assert ("/options/near_plan/plan_id", "unknown_id") in found
    assert {pointer for pointer, _ in found} == {"/options/near_plan/plan_id", "/webhook_url"}


@pytest.mark.parametrize("part", ["menu", "route"])
def test_a_part_that_the_library_has_not_hides_nothing_else(caller, part):
    """The part is not said to be missing, and what would follow from that is not told."""
    body = changed(library={part: NOWHERE}, roster=ROSTER)
    body.pop(part, None)
    expected = {(f"/library/{part}", "unknown_id"), (CAP, "no_unit")}
    assert told(caller.post("/v1/plans", json=body)) == expected
    assert told(caller.post("/v1/requirements", json=body)) == expected
    within = {(f"/request{pointer}", code) for pointer, code in expected}
    assert told(caller.post("/v1/calendars", json={"request": body, "days": 7})) == within
    check = {"request": body, "plan": {"trips": [], "stock": []}}
    assert within <= told(caller.post("/v1/plan-checks", json=check))


def test_a_roster_that_the_library_has_not_hides_nothing_else(caller):
    """Nor does one whose name cannot be one, beside a gear list that is not there either."""
    gear = [SMALLEST_REQUEST["gear"][0] | {"mass": "4"}, *SMALLEST_REQUEST["gear"][1:]]
    library = {"roster": {"entry_id": "none"}, "gear_lists": [NOWHERE]}
    body = changed(library=library, gear=gear)
    del body["roster"]
    assert told(caller.post("/v1/plans", json=body)) == {
        ("/library/roster", "missing"),
        ("/gear/0/mass", "no_unit"),
    }
    body["library"]["roster"] = NOWHERE
    assert told(caller.post("/v1/plans", json=body)) == {
        ("/library/roster", "unknown_id"),
        ("/library/gear_lists/0", "unknown_id"),
        ("/gear/0/mass", "no_unit"),
    }


def test_a_part_that_is_given_twice_hides_nothing_else(caller):
    """The part of the request itself is read."""
    body = changed(library={"roster": NOWHERE}, roster=ROSTER)
    assert told(caller.post("/v1/plans", json=body)) == {
        ("/library/roster", "given_twice"),
        (CAP, "no_unit"),
    }


@pytest.mark.parametrize("part", ["menu", "gear_lists"])
def test_an_unknown_entry_hides_no_fault_around_the_request(caller, part):
    """What stands beside the request is read as well: calendars' rules, the plan to check."""
    library = {part: [NOWHERE] if part == "gear_lists" else NOWHERE}
    body = changed(library=library, roster=ROSTER)
    body.pop(part, None)
    named = "/request/library/gear_lists/0" if part == "gear_lists" else "/request/library/menu"
    expected = {(named, "unknown_id"), (f"/request{CAP}", "no_unit")}
    asked = {"request": body, "days": "seven", "carrys": 1}
    assert told(caller.post("/v1/calendars", json=asked)) == expected | {
        ("/days", "not_a_number"),
        ("/carrys", "unknown_field"),
    }
    check = {"request": body, "plan": {"trips": "none"}, "more": 1}
    assert told(caller.post("/v1/plan-checks", json=check)) == expected | {
        ("/plan/trips", "wrong_type"),
        ("/more", "unknown_field"),
    }


def test_an_unknown_entry_is_the_one_fault_of_a_question_in_order(caller):
    """Nothing is searched or judged without it."""
    body = changed(library={"menu": NOWHERE})
    expected = {("/request/library/menu", "unknown_id")}
    assert told(caller.post("/v1/calendars", json={"request": body, "days": 7})) == expected
    check = {"request": body, "plan": {"trips": []}}
    assert told(caller.post("/v1/plan-checks", json=check)) == expected


def test_only_the_library_is_at_fault(caller):
    """A request that is in order but for its library is refused for that alone."""
    body = changed(library={"menu": NOWHERE})
    assert told(caller.post("/v1/plans", json=body)) == {("/library/menu", "unknown_id")}
    assert caller.get("/v1/plans").json()["plans"] == []


@pytest.mark.parametrize(
    ("variants", "own"),
    [
        ([{"name": "a", "edit": []}], {("/variants/0/edit", "unknown_field")}),
        ([{"name": "a"}, {"name": "a"}], {("/variants/1/name", "duplicate_id")}),
        ([], {("/variants", "too_few")}),
    ],
)
def test_a_faulty_comparison_hides_no_fault_of_its_base(caller, variants, own):
    """The base is read whatever the variants are like, and its library too."""
    document = {"base": changed(roster=ROSTER), "variants": variants}
    answer = caller.post("/v1/comparisons", json=document)
    assert told(answer) == own | {(f"/base{CAP}", "no_unit")}
    document["base"] |= {"library": {"menu": NOWHERE}}
    more = {("/base/library/menu", "unknown_id"), (f"/base{CAP}", "no_unit")}
    assert told(caller.post("/v1/comparisons", json=document)) == own | more
