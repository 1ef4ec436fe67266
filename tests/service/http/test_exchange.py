"""What every answer has: tags and conditions, compression, HEAD, OPTIONS, CORS, and its headers."""

import asyncio
import gzip
import json

import pytest
from fastapi.testclient import TestClient
from starlette.responses import PlainTextResponse

from service.app import ROUTES, create_app
from service.http.cross_origin import CrossOrigin
from service.http.doorkeeper import Doorkeeper
from service.http.query import known_query_only
from service.http.representations import SMALLEST_COMPRESSED_BYTES, Representations
from service.http.watch import RequestCounts
from service.settings import Settings
from tests.service.fake_translation import TRANSLATION

JSON = {"Content-Type": "application/json"}
SITE = "https://trips.example"
ENDED = ("http.response.start", "http.response.body")


def test_an_answer_that_is_known_is_not_sent_again(shared_client):
    """The same tag comes twice, and If-None-Match with it gives 304 without a body."""
    first = shared_client.get("/v1/units")
    tag = first.headers["ETag"]
    again = shared_client.get("/v1/units", headers={"If-None-Match": f'"other", W/{tag}'})
    assert (again.status_code, again.content, again.headers["ETag"]) == (304, b"", tag)
    assert shared_client.get("/v1/units", headers={"If-None-Match": '"x"'}).status_code == 200
    assert shared_client.get("/v1/limits").headers["ETag"] != tag


@pytest.mark.parametrize("method", ["GET", "HEAD"])
@pytest.mark.parametrize("coding", ["identity", "gzip"])
def test_what_is_not_as_it_was_read_is_refused(shared_client, method, coding):
    """If-Match with another tag is 412 with the tag of now, before If-None-Match is looked at."""
    ask = {"Accept-Encoding": coding}
    tag = shared_client.get("/v1/units", headers=ask).headers["ETag"]
    for kept in (tag, f'"x", {tag}', "*"):
        answer = shared_client.request(method, "/v1/units", headers=ask | {"If-Match": kept})
        assert (answer.status_code, answer.headers["ETag"]) == (200, tag)
    plain = shared_client.get("/v1/units", headers={"Accept-Encoding": "identity"}).headers["ETag"]
    for lost in ('"x"', f"W/{tag}", "x"):
        conditions = {"If-Match": lost, "If-None-Match": tag}
        answer = shared_client.request(method, "/v1/units", headers=ask | conditions)
        assert answer.status_code == 412
        assert answer.headers["ETag"] == plain
        assert answer.headers["Content-Type"] == "application/problem+json"
        assert answer.headers["Cache-Control"] == "no-store"
        if method == "HEAD":
            assert answer.content == b""
        else:
            assert answer.json()["code"] == "changed_since"
            assert answer.headers["Content-Length"] == str(len(answer.content))


def test_if_match_says_nothing_of_an_answer_that_is_a_refusal_anyway(shared_client):
    """What is not there is not there (RFC 9110, section 13.2.1)."""
    answer = shared_client.get("/v1/plans/plan_" + "0" * 26, headers={"If-Match": '"x"'})
    assert (answer.status_code, answer.json()["code"]) == (404, "not_found")


def test_a_page_that_changed_is_refused_as_data(shared_client):
    """The refusal has no headers of a page or of a file to keep."""
    ask = {"Accept": "text/html", "If-Match": '"x"'}
    answer = shared_client.get("/v1/plans", headers=ask)
    assert (answer.status_code, answer.json()["code"]) == (412, "changed_since")
    assert answer.headers["Content-Security-Policy"].startswith("default-src 'none'")
    table = {"Accept": "text/csv", "If-Match": '"x"'}
    assert "Content-Disposition" not in shared_client.get("/v1/library/gear", headers=table).headers


def test_each_representation_has_a_tag_of_its_own(shared_client):
    """Packed and not packed are two representations with two tags."""
    plain = shared_client.get("/v1/units", headers={"Accept-Encoding": "identity"})
    packed = shared_client.get("/v1/units", headers={"Accept-Encoding": "gzip"})
    assert plain.headers["ETag"] != packed.headers["ETag"]
    assert "Content-Encoding" not in plain.headers
    assert packed.headers["Content-Encoding"] == "gzip"
    assert packed.json() == plain.json()
    assert int(packed.headers["Content-Length"]) < len(plain.content) / 2
    assert int(packed.headers["Content-Length"]) > 0 < SMALLEST_COMPRESSED_BYTES


@pytest.mark.parametrize("accepted", ["gzip;q=0", "br", "identity", "*, gzip;q=0", "*;q=0.000"])
def test_who_wants_no_gzip_gets_none(shared_client, accepted):
    """A coding with weight 0, or another one, is not used."""
    answer = shared_client.get("/v1/units", headers={"Accept-Encoding": accepted})
    assert "Content-Encoding" not in answer.headers


@pytest.mark.parametrize("path", ["/v1/units", "/healthz", "/v1/plans", "/docs", "/openapi.json"])
def test_head_is_get_without_the_body(shared_client, path):
    """HEAD gives the status and the length of GET, and no body."""
    got, head = shared_client.get(path), shared_client.head(path)
    assert (head.status_code, head.content) == (200, b"")
    assert head.headers["Content-Length"] == got.headers["Content-Length"]


@pytest.mark.parametrize(
    ("path", "methods"),
    [
        ("/v1/plans", "GET, HEAD, OPTIONS, POST"),
        ("/v1/units", "GET, HEAD, OPTIONS"),
        ("/v1/plan-checks", "OPTIONS, POST"),
        ("/openapi.json", "GET, HEAD, OPTIONS"),
    ],
)
def test_options_and_refusals_name_the_methods(shared_client, path, methods):
    """OPTIONS answers 204 with Allow, and a refused method has the same Allow."""
    asked = shared_client.options(path)
    assert (asked.status_code, asked.headers["Allow"]) == (204, methods)
    refused = shared_client.patch(path)
    assert (refused.status_code, refused.headers["Allow"]) == (405, methods)


def test_an_asset_names_its_methods_too(shared_client):
    """Allow is never empty."""
    assert (
        shared_client.post("/docs-assets/swagger-ui.css").headers["Allow"] == "GET, HEAD, OPTIONS"
    )
    asked = shared_client.options("/docs-assets/swagger-ui.css")
    assert (asked.status_code, asked.headers["Allow"]) == (204, "GET, HEAD, OPTIONS")
    assert shared_client.options("/nowhere").status_code == 404


def test_head_of_a_stream_does_not_wait_for_its_end():
    """The headers come at once and end the answer, whatever the stream still sends after that."""
    sent = []

    async def stream(_scope, _receive, send):
        headers = [(b"content-type", b"text/event-stream")]
        await send({"type": "http.response.start", "status": 200, "headers": headers})
        assert [message["type"] for message in sent] == list(ENDED)
        for more in (True, False):
            await send({"type": "http.response.body", "body": b"data: 1", "more_body": more})

    async def keep(message):
        sent.append(message)

    scope = {"type": "http", "method": "HEAD", "path": "/", "headers": []}
    asyncio.run(Representations(stream)(scope, None, keep))
    assert [message["type"] for message in sent] == list(ENDED)
    assert sent[1]["body"] == b""


@pytest.mark.parametrize("path", ["/v1/units", "/nowhere", "/docs", "/v1/plans/x/loads.csv"])
def test_every_answer_has_the_headers_of_safety(shared_client, path):
    """Nothing is sniffed, framed or kept by caches in between, and answers vary by who asks."""
    headers = shared_client.get(path).headers
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert "frame-ancestors 'none'" in headers["Content-Security-Policy"]
    assert headers["Cache-Control"] in {"private, no-cache", "no-store"}
    assert {"Accept", "Accept-Encoding", "Authorization"} <= set(headers["Vary"].split(", "))


@pytest.mark.parametrize(
    "path", [route.path for route in ROUTES if "GET" in route.methods and route.path[:3] == "/v1"]
)
def test_unknown_query_parameters_are_refused(shared_client, path):
    """A misspelt parameter is a fault on every address, and all of them are named."""
    answer = shared_client.get(path + "?refrence=1&colour=2", headers={"Accept": "*/*"})
    assert answer.status_code == 422
    assert [fault["parameter"] for fault in answer.json()["errors"]] == ["refrence", "colour"]
    assert known_query_only.__doc__


@pytest.mark.parametrize(
    ("path", "names"),
    [
        ("/v1/plans?reference=%00", ["reference"]),
        ("/v1/releases?reference=a%00b", ["reference"]),
        ("/v1/plans?reference=a&reference=%00&state=%00", ["reference", "state"]),
        ("/v1/plans?reference=%00&colour=%00", ["colour", "reference"]),
        ("/v1/library/routes/a%00", ["entry_id"]),
    ],
)
def test_a_parameter_has_no_null_character(shared_client, path, names):
    """PostgreSQL has no text with U+0000, so no address takes one, wherever plans are stored."""
    answer = shared_client.get(path)
    assert answer.status_code == 422
    assert [fault["parameter"] for fault in answer.json()["errors"]] == names


@pytest.mark.parametrize(
    ("address", "repeated"),
    [
        ("/v1/plans?state=done&state=running", ["state"]),
        ("/v1/plans?limit=1&limit=2&reference=a&reference=a", ["limit", "reference"]),
    ],
)
def test_a_parameter_that_stands_twice_is_refused(shared_client, address, repeated):
    """No value is passed over in silence, not even an equal one."""
    answer = shared_client.get(address)
    assert answer.status_code == 422
    assert [(fault["parameter"], fault["code"]) for fault in answer.json()["errors"]] == [
        (name, "repeated_parameter") for name in repeated
    ]


def test_a_parameter_that_takes_several_values_may_stand_twice(shared_client):
    """Sheets are chosen one by one."""
    address = f"/v1/plans/plan_{'0' * 26}/pages?sheet=people&sheet=camps"
    assert shared_client.get(address, headers={"Accept": "text/html"}).status_code == 404


def test_two_idempotency_keys_are_refused(client):
    """Nothing is begun under one of two keys."""
    keys = [("Idempotency-Key", "one"), ("Idempotency-Key", "two")]
    answer = client.post("/v1/plans", json={"reference": "r"}, headers=keys)
    assert answer.status_code == 422
    assert [(fault["parameter"], fault["code"]) for fault in answer.json()["errors"]] == [
        ("Idempotency-Key", "repeated_parameter")
    ]
    assert client.get("/v1/plans").json()["plans"] == []


def test_headers_that_are_lists_may_stand_twice(client):
    """A list may be written in several lines (RFC 9110, section 5.3)."""
    lines = [("Prefer", "respond-async"), ("Prefer", "wait=0")]
    assert client.post("/v1/plans", json={"reference": "r"}, headers=lines).status_code == 202


@pytest.mark.parametrize("path", ["/openapi.json", "/docs", "/redoc", "/healthz"])
def test_unknown_query_parameters_are_refused_outside_of_v1_too(shared_client, path):
    """The description and the pages take none either."""
    answer = shared_client.get(path + "?x=1")
    assert answer.status_code == 422
    assert [fault["parameter"] for fault in answer.json()["errors"]] == ["x"]


@pytest.mark.parametrize("size", [100, 100_000])
def test_a_packed_request_is_taken(client, size):
    """A body in gzip is read as the same body without."""
    body = gzip.compress(json.dumps({"reference": "r" * size}).encode())
    answer = client.post("/v1/plans", content=body, headers=JSON | {"Content-Encoding": "gzip"})
    assert (answer.status_code, len(answer.json()["reference"])) == (202, size)


@pytest.mark.parametrize(
    ("body", "status"),
    [
        (gzip.compress(b" " * 50_000_000), 413),
        (b"no gzip", 400),
        (gzip.compress(b"{}", mtime=0)[:-4], 400),
        (gzip.compress(b"{}", mtime=0) + b"x", 400),
    ],
)
def test_what_unpacks_to_too_much_or_not_at_all_is_refused(client, body, status):
    """No more than the limit is unpacked, and broken or trailing gzip is refused."""
    answer = client.post("/v1/plans", content=body, headers=JSON | {"Content-Encoding": "gzip"})
    assert answer.status_code == status


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    """A service that one website may call."""
    database = tmp_path_factory.mktemp("data") / "plans.sqlite3"
    settings = Settings(database=database, cors_origins=SITE)
    with TestClient(create_app(settings, TRANSLATION)) as caller:
        yield caller


def test_a_named_website_may_call(site):
    """Its preflight is answered, and it may read answers and refusals."""
    ask = {"Origin": SITE, "Access-Control-Request-Method": "POST"}
    allowed = site.options("/v1/plans", headers=ask).headers
    assert allowed["Access-Control-Allow-Origin"] == SITE
    assert "POST" in allowed["Access-Control-Allow-Methods"]
    taken = set(allowed["Access-Control-Allow-Headers"].split(", "))
    assert taken >= {"Idempotency-Key", "Content-Encoding", "X-Request-Id"}
    for path in ("/v1/units", "/nowhere"):
        headers = site.get(path, headers={"Origin": SITE}).headers
        assert headers["Access-Control-Allow-Origin"] == SITE
        shown = set(headers["Access-Control-Expose-Headers"].split(", "))
        assert shown >= {"ETag", "Link", "X-Request-Id", "Content-Disposition"}
        assert "Origin" in headers["Vary"]


def test_another_website_may_not(site, shared_client):
    """Others get no such header, and nobody does where no website is named."""
    for caller, origin in ((site, "https://other.example"), (shared_client, SITE)):
        answer = caller.get("/v1/units", headers={"Origin": origin})
        assert "Access-Control-Allow-Origin" not in answer.headers
    assert {CrossOrigin.__name__, Representations.__name__} == {"CrossOrigin", "Representations"}


def at_the_door(hosts, **headers):
    """What a doorkeeper for these hosts answers."""
    door = Doorkeeper(PlainTextResponse("in"), RequestCounts(), hosts=frozenset(hosts))
    return TestClient(door).get("/", headers=headers)


@pytest.mark.parametrize("sent", [{"X": "x" * 40_000}, {f"X{n}": "x" * 300 for n in range(110)}])
def test_headers_that_came_in_one_piece_have_the_same_limit(sent):
    """Line and headers over 32 kB are refused, though the server has read them at once."""
    answer = at_the_door(set(), **sent)
    assert (answer.status_code, answer.json()["code"]) == (431, "headers_too_large")
    assert at_the_door(set(), X="x" * 20_000).status_code == 200


@pytest.mark.parametrize(
    ("hosts", "host", "status"),
    [
        ({"localhost", "[::1]"}, "localhost:8000", 200),
        ({"localhost", "[::1]"}, "[::1]:8000", 200),
        ({"localhost"}, "LOCALHOST", 200),
        ({"localhost"}, "evil.example", 421),
        ({"localhost"}, "localhost.evil.example:8000", 421),
        (set(), "anything", 200),
    ],
)
def test_foreign_hosts_are_turned_away(hosts, host, status):
    """Where hosts are named, a request for another is a problem document with status 421."""
    answer = at_the_door(hosts, Host=host)
    assert answer.status_code == status
    if status == 421:
        assert answer.json()["code"] == "host_unknown"
        assert answer.headers["X-Content-Type-Options"] == "nosniff"


def test_two_lengths_of_one_body_are_refused():
    """Content-Length beside Transfer-Encoding ends the connection."""
    answer = at_the_door((), **{"Content-Length": "3", "Transfer-Encoding": "chunked"})
    assert (answer.status_code, answer.headers["Connection"]) == (400, "close")
    assert answer.json()["code"] == "malformed_request"


def test_the_whole_service_can_be_asked_for_its_methods(shared_client):
    """OPTIONS * lists every method that some address takes (RFC 9110, section 9.3.7)."""
    sent = []

    async def send(message):
        sent.append(message)

    scope = {"type": "http", "method": "OPTIONS", "path": "*", "headers": [], "query_string": b""}
    asyncio.run(shared_client.app(scope, None, send))
    assert sent[0]["status"] == 204
    every = {method for route in ROUTES for method in route.methods} | {"HEAD", "OPTIONS"}
    assert dict(sent[0]["headers"])[b"allow"].decode() == ", ".join(sorted(every))
