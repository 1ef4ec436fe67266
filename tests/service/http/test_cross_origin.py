"""A website that may call reads every refusal, also those made before the application."""

import pytest
from fastapi.testclient import TestClient
from starlette.responses import PlainTextResponse

from service.app import create_app
from service.http.cross_origin import ReadableRefusals, allowed_origin
from service.server import HandingBackServer
from tests.service.fake_translation import TRANSLATION

SITE, OTHER = "https://trips.example", "https://other.example"
ALLOWED = "Access-Control-Allow-Origin"


@pytest.fixture
def served(settings):
    """A caller of all that stands before the application, which one website may call."""
    settings = settings.model_copy(update={"cors_origins": SITE, "hosts": "here.example"})
    server = HandingBackServer(create_app(settings, TRANSLATION), settings)
    with TestClient(server.config.app, base_url="http://here.example") as caller:
        yield caller


def refusals(caller: TestClient, origin: str, monkeypatch):
    """What the doorkeeper, the turnstile and the room for bodies say to a website."""
    headers = {"Origin": origin}
    foreign = caller.get("/v1/units", headers=headers | {"Host": "foreign.example"})
    long = caller.get("/v1/units", headers=headers | {"X-Long": "x" * 40_000})

    async def no_place(*_, **__):
        return False

    with monkeypatch.context() as patched:
        patched.setattr("service.http.lines.Lines.enter", no_place)
        busy = caller.post("/v1/plans", json={}, headers=headers)
    return foreign, long, busy


def test_a_named_website_reads_what_is_refused_before_the_application(served, monkeypatch):
    """A foreign host, headers that are too large, and no place: each has the header once."""
    answers = refusals(served, SITE, monkeypatch)
    told = [(answer.status_code, answer.json()["code"]) for answer in answers]
    assert told == [(421, "host_unknown"), (431, "headers_too_large"), (503, "too_busy")]
    for answer in answers:
        assert answer.headers.get_list(ALLOWED) == [SITE]
        assert "Retry-After" in answer.headers["Access-Control-Expose-Headers"]
        assert "Origin" in answer.headers["Vary"]


def test_another_website_reads_none_of_it(served, monkeypatch):
    """It gets the same refusals without the header."""
    answers = refusals(served, OTHER, monkeypatch)
    assert [answer.status_code for answer in answers] == [421, 431, 503]
    assert not [answer for answer in answers if ALLOWED in answer.headers]


def test_an_answer_of_the_application_has_the_header_once(served):
    """Both layers say the same."""
    assert served.get("/v1/units", headers={"Origin": SITE}).headers.get_list(ALLOWED) == [SITE]


def test_where_no_website_is_named_nobody_is_allowed():
    """Not even a request without an origin, or with an empty one."""
    scope = {"type": "http", "headers": [(b"origin", b"")]}
    assert allowed_origin(scope, frozenset()) is None
    assert allowed_origin(scope, frozenset({SITE})) is None
    assert allowed_origin({"type": "http", "headers": []}, frozenset({SITE})) is None
    open_to_none = TestClient(ReadableRefusals(PlainTextResponse("in"), origins=frozenset()))
    assert ALLOWED not in open_to_none.get("/", headers={"Origin": SITE}).headers
