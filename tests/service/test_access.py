"""Keys and tenants: who is let in, what for, and that tenants never meet.

The file is long because the table of all routes stands in it.
"""

import subprocess
import sys

import pytest
from fastapi.testclient import TestClient

from api_schema.examples import STORED_GEAR_LIST, STORED_MENU, STORED_ROSTER, STORED_ROUTE
from service import keys as keys_program
from service.access import scope_for
from service.app import GUARDED, ROUTES, create_app
from service.settings import Settings
from service.storage.comparisons import StoredVariant
from service.storage.keys import KeyStore
from tests.service.fake_translation import TRANSLATION

LIBRARY = {
    "routes": STORED_ROUTE,
    "gear-lists": STORED_GEAR_LIST,
    "menus": STORED_MENU,
    "rosters": STORED_ROSTER,
}
OURS = {"json": {"reference": "secret"}}
IDS = {
    "{plan_id}": "plan_",
    "{comparison_id}": "comparison_",
    "{stress_test_id}": "stress_",
    "{entry_id}": "entry_",
    "{report_id}": "report_",
}
"""What stands for an id in an address, and how each id of that kind begins."""
EVERY_GUARDED = [
    (method, route.path)
    for router in GUARDED
    for route in router.routes
    for method in sorted(route.methods)
]
STORES = {(method, path) for method, path in EVERY_GUARDED if method == "PUT"}
"""What is stored under an id of the caller's choice is the caller's own, whoever else has one."""
OF_ONE = [
    (method, path, kind)
    for method, path in EVERY_GUARDED
    for kind in IDS
    if kind in path and (method, path) not in STORES
]
OTHERS = {
    ("POST", "/v1/plans"),
    ("GET", "/v1/plans"),
    ("POST", "/v1/plan-checks"),
    ("POST", "/v1/requirements"),
    ("POST", "/v1/comparisons"),
    ("GET", "/v1/releases"),
    ("GET", "/metrics"),
    ("POST", "/v1/calendars"),
    ("POST", "/v1/messages"),
    ("POST", "/v1/files/gear-list"),
    ("POST", "/v1/files/roster"),
    ("POST", "/v1/files/route"),
    ("GET", "/v1/library/gear"),
    ("GET", "/v1/library/gear.csv"),
    ("GET", "/v1/library/menus"),
    ("GET", "/v1/library"),
}
"""Guarded addresses without an id: what they make or list is of the caller's tenant."""


@pytest.fixture(scope="module")
def guarded(tmp_path_factory):
    """A service that asks for keys, with two tenants who have them."""
    settings = Settings(database=tmp_path_factory.mktemp("data") / "p.sqlite3", keys="required")
    with TestClient(create_app(settings, TRANSLATION), raise_server_exceptions=False) as caller:
        caller.store = caller.app.state.wiring.keys
        caller.a = caller.store.make(tenant_id="a", scopes=("read", "plan"))
        caller.b = caller.store.make(tenant_id="b", scopes=("read", "plan"))
        yield caller


def with_key(key):
    """The header of a key."""
    return {"Authorization": f"Bearer {key}", "Accept": "*/*"}


@pytest.fixture(scope="module")
def plan_of_a(guarded):
    """A plan of the first tenant that is final."""
    headers = with_key(guarded.a) | {"Prefer": "wait=30"}
    return guarded.post("/v1/plans", headers=headers, **OURS).json()["plan_id"]


@pytest.fixture(scope="module")
def ids_of_a(guarded, plan_of_a):
    """An id of each kind that is the first tenant's."""
    row = StoredVariant("base", (), None, ())
    comparison_id = guarded.app.state.wiring.comparisons.add(
        tenant_id="a", reference="secret", created_at_ms=1, rows=(row,)
    ).comparison_id
    for kind, sent in LIBRARY.items():
        address = f"/v1/library/{kind}/entry_of_a"
        assert guarded.put(address, headers=with_key(guarded.a), json=sent).status_code == 201
    stress_test = guarded.app.state.wiring.store.accept(
        tenant_id="a", reference="secret", solve_seconds=10, document={}, kind="stress"
    )
    report = guarded.app.state.wiring.reports.keep(
        tenant_id="a", plan_id=plan_of_a, sent=b"{}", report=b"{}"
    )
    return {
        "{plan_id}": plan_of_a,
        "{comparison_id}": comparison_id,
        "{stress_test_id}": stress_test.plan_id,
        "{entry_id}": "entry_of_a",
        "{report_id}": report.report_id,
    }


@pytest.mark.parametrize("address", OF_ONE, ids=" ".join)
@pytest.mark.parametrize("id_of", ["a", "nobody", "nonsense"])
def test_what_is_of_another_tenant_is_not_there(guarded, ids_of_a, address, id_of):
    """Whatever is asked of it, read or write, the answer is the 404 of what never was."""
    method, path, kind = address
    named = {"a": ids_of_a[kind], "nobody": IDS[kind] + "0" * 26, "nonsense": "nonsense"}[id_of]
    b = with_key(guarded.b)
    # A second plan of nobody, for the address that needs two.
    query = {"to": "plan_" + "1" * 26} if "/difference" in path else {}
    answer = guarded.request(method, path.replace(kind, named), params=query, headers=b)
    never = guarded.request(
        method, path.replace(kind, IDS[kind] + "1" * 26), params=query, headers=b
    )
    assert answer.status_code == 404
    assert answer.content == never.content
    for own_kind, collection in (("{plan_id}", "plans"), ("{comparison_id}", "comparisons")):
        own = f"/v1/{collection}/{ids_of_a[own_kind]}"
        assert guarded.get(own, headers=with_key(guarded.a)).status_code == 200


def test_the_second_plan_of_a_difference_is_of_the_caller_too(guarded, plan_of_a):
    """A caller cannot hold a plan of another tenant against one of their own."""
    headers = with_key(guarded.b) | {"Prefer": "wait=30"}
    own = guarded.post("/v1/plans", headers=headers, **OURS).json()["plan_id"]
    address = f"/v1/plans/{own}/difference"
    for other in (plan_of_a, "plan_" + "0" * 26):
        answer = guarded.get(address, params={"to": other}, headers=with_key(guarded.b))
        assert answer.status_code == 404
    assert guarded.delete(f"/v1/plans/{own}", headers=with_key(guarded.b)).status_code == 204


@pytest.mark.parametrize("kind", LIBRARY)
def test_an_id_of_the_library_is_another_thing_for_another_tenant(guarded, ids_of_a, kind):
    """What the second tenant stores under it is theirs, and the first tenant's stays as it was."""
    address = f"/v1/library/{kind}/{ids_of_a['{entry_id}']}"
    before = guarded.get(address, headers=with_key(guarded.a)).content
    own = LIBRARY[kind] | {"title": "of b"}
    assert guarded.put(address, headers=with_key(guarded.b), json=own).status_code == 201
    assert guarded.get(address, headers=with_key(guarded.a)).content == before
    listed = guarded.get("/v1/library", headers=with_key(guarded.b)).json()["entries"]
    assert [(entry["kind"], entry["title"]) for entry in listed] == [(kind, "of b")]
    assert guarded.delete(address, headers=with_key(guarded.b)).status_code == 204
    assert guarded.get(address, headers=with_key(guarded.a)).content == before


def test_every_guarded_route_is_in_the_table():
    """A new route with another id, or none, turns this red until it has its row."""
    found = {(m, r.path) for router in GUARDED for r in router.routes for m in r.methods}
    assert found == {*((method, path) for method, path, _ in OF_ONE), *OTHERS, *STORES}
    assert {path for _, path in STORES} == {f"/v1/library/{kind}/{{entry_id}}" for kind in LIBRARY}
    with_ids = {r.path for r in ROUTES if any(kind in r.path for kind in IDS)}
    assert with_ids == {path for _, path, _ in OF_ONE}


@pytest.mark.parametrize("method", ["GET", "POST", "DELETE"])
def test_lists_and_keys_of_repeated_requests_are_of_one_tenant(guarded, plan_of_a, method):
    """The other tenant lists nothing of it, and its Idempotency-Key leads to a plan of its own."""
    assert guarded.get("/v1/plans", headers=with_key(guarded.b)).json()["plans"] == []
    releases = {"url": "/v1/releases", "params": {"reference": "secret"}}
    release = f"/v1/plans/{plan_of_a}/release"
    guarded.post(release, headers=with_key(guarded.a), json={"released_by": "a"})
    theirs = guarded.get(**releases, headers=with_key(guarded.b)).json()
    assert theirs == {"releases": [], "next_cursor": None}
    (mine,) = guarded.get(**releases, headers=with_key(guarded.a)).json()["releases"]
    assert mine["key_id"] == guarded.a.split("_")[1]
    mine = guarded.get("/v1/plans", headers=with_key(guarded.a)).json()["plans"]
    assert plan_of_a in {plan["plan_id"] for plan in mine}
    assert scope_for(method, "/v1/plans") == ("read" if method == "GET" else "plan")


def test_one_key_of_two_tenants_is_two_requests(guarded):
    """The same request with the same Idempotency-Key makes a plan for each, however often."""
    body = {"order": "sleep", "seconds": 1}
    made = [
        guarded.post("/v1/plans", json=body, headers=with_key(key) | {"Idempotency-Key": "one"})
        for key in (guarded.a, guarded.b, guarded.a, guarded.b)
    ]
    of_a, of_b, *again = [answer.json()["plan_id"] for answer in made]
    assert again == [of_a, of_b]
    assert of_a != of_b


@pytest.mark.parametrize(
    "header", ["", "Bearer", "Bearer x", "Basic abc", "Bearer hw_000000000000_" + "0" * 40]
)
def test_nobody_is_let_in_without_a_key(guarded, header):
    """Without a key that is in use each guarded address answers 401, whatever it is asked."""
    for method, path in EVERY_GUARDED:
        answer = guarded.request(method, path, headers={"Authorization": header})
        assert (answer.status_code, answer.json()["code"]) == (401, "key_needed")
        assert answer.headers["WWW-Authenticate"].startswith("Bearer")


@pytest.mark.parametrize("path", ["/healthz", "/v1/units", "/v1/rules", "/docs", "/openapi.json"])
def test_facts_health_and_documentation_need_no_key(guarded, path):
    """What says nothing of anybody's plans is open."""
    assert guarded.get(path).status_code == 200


def test_a_key_does_only_what_it_is_for(guarded, plan_of_a):
    """With the scope read alone nothing is stored, stopped or deleted."""
    reader = with_key(guarded.store.make(tenant_id="a", scopes=("read",)))
    assert guarded.get(f"/v1/plans/{plan_of_a}", headers=reader).status_code == 200
    assert guarded.post("/v1/plan-checks", headers=reader, json={}).status_code == 200
    assert scope_for("POST", f"/v1/plans/{plan_of_a}/replans/calendars") == "read"
    for end in ("reports", "replans"):
        assert scope_for("POST", f"/v1/plans/{plan_of_a}/{end}") == "plan"
    for method, path in (
        ("POST", "/v1/plans"),
        ("DELETE", f"/v1/plans/{plan_of_a}"),
        ("POST", "/v1/comparisons"),
        ("POST", "/v1/messages"),
        ("POST", f"/v1/plans/{plan_of_a}/release"),
    ):
        answer = guarded.request(method, path, headers=reader, json={})
        assert (answer.status_code, answer.json()["code"]) == (403, "scope_needed")


def test_figures_of_all_tenants_are_for_those_who_administer(guarded):
    """A key without the scope is told so, and one with it alone sees no plan."""
    assert guarded.get("/metrics", headers=with_key(guarded.a)).status_code == 403
    administers = with_key(guarded.store.make(tenant_id="a", scopes=("administer",)))
    assert guarded.get("/metrics", headers=administers).status_code == 200
    assert guarded.get("/v1/plans", headers=administers).status_code == 403


def test_a_key_is_revoked_and_replaced_while_the_service_runs(guarded):
    """A revoked key is refused at the next request, and the new one is taken."""
    old = guarded.store.make(tenant_id="a", scopes=("read",))
    assert guarded.get("/v1/plans", headers=with_key(old)).status_code == 200
    new = guarded.store.make(tenant_id="a", scopes=("read",))
    assert guarded.store.revoke(old.split("_")[1])
    assert not guarded.store.revoke(old.split("_")[1])
    assert guarded.get("/v1/plans", headers=with_key(old)).status_code == 401
    assert guarded.get("/v1/plans", headers=with_key(new)).status_code == 200


def test_what_changes_plans_leaves_a_trail_without_secrets(guarded, caplog):
    """Each change is logged with key id and tenant, and never with the secret."""
    with caplog.at_level("INFO", logger="service.access"):
        guarded.post("/v1/plans", headers=with_key(guarded.a), json={})
        guarded.get("/v1/plans", headers=with_key(guarded.a))
    key_id, secret = guarded.a.split("_")[1:]
    trail = [r.getMessage() for r in caplog.records if r.name == "service.access"]
    assert trail == [f"audit: key {key_id} of tenant a: POST /v1/plans"]
    assert secret not in caplog.text


def test_the_trail_names_the_key_that_asked_for_more_than_it_may(guarded, caplog):
    """A key without the scope is refused, and whose it was can be read afterwards."""
    reader = guarded.store.make(tenant_id="a", scopes=("read",))
    with caplog.at_level("INFO", logger="service.access"):
        guarded.post("/v1/plans", headers=with_key(reader), json={})
    (line,) = [r.getMessage() for r in caplog.records if r.name == "service.access"]
    key_id = reader.split("_")[1]
    assert line == f"audit: refused, no scope plan: key {key_id} of tenant a: POST /v1/plans"


def test_no_secret_is_stored(database):
    """Of a key only a hash is kept, and a changed secret is another key."""
    store = KeyStore(database)
    key = store.make(tenant_id="a", scopes=("read",))
    assert store.caller_of(key).tenant_id == "a"
    assert store.caller_of(key[:-1] + ("0" if key[-1] != "0" else "1")) is None
    assert key.rpartition("_")[2] not in repr(store.list())
    with pytest.raises(ValueError, match="tenant"):
        store.make(tenant_id="A b", scopes=("read",))


@pytest.mark.parametrize(
    ("host", "keys", "needed"),
    [
        ("127.0.0.1", "auto", False),
        ("192.0.2.1", "auto", True),
        ("192.0.2.1", "none", False),
        ("127.0.0.1", "required", True),
    ],
)
def test_keys_are_needed_where_others_can_reach_the_service(tmp_path, host, keys, needed):
    """On localhost none is needed; on another address one is, unless the settings say not."""
    assert Settings(database=tmp_path / "p", host=host, keys=keys).needs_keys() is needed


def test_the_program_makes_lists_and_revokes_keys(tmp_path, monkeypatch, capsys):
    """`python -m service.keys` shows a key once, lists it without its secret, and revokes it."""
    monkeypatch.setenv("HAULWRIGHT_DATABASE", str(tmp_path / "p.sqlite3"))
    assert keys_program.main(["make", "agency-1", "--scopes", "read"]) == 0
    key = capsys.readouterr().out.strip()
    assert keys_program.main(["list"]) == 0
    listed = capsys.readouterr().out
    assert "agency-1 read" in listed
    assert key.rpartition("_")[2] not in listed
    assert keys_program.main(["revoke", key.split("_")[1]]) == 0
    assert keys_program.main(["revoke", key.split("_")[1]]) == 1
    assert keys_program.main(["make", "Agency 1"]) == 1


def test_a_start_for_others_without_a_key_is_refused(tmp_path):
    """On an address that others reach the service does not start before there is a key."""
    environment = {
        "HAULWRIGHT_HOST": "192.0.2.1",
        "HAULWRIGHT_DATABASE": str(tmp_path / "p.sqlite3"),
    }
    start = subprocess.run(
        [sys.executable, "-m", "service"],
        env=environment,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert start.returncode == 1
    assert "python -m service.keys make" in start.stderr
