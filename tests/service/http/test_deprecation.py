"""An address that is to go says so in each of its answers."""

import datetime as dt

import pytest
from fastapi import FastAPI
from fastapi.testclient import TestClient
from starlette.responses import Response

from service.app import Application, create_app
from service.http.deprecation import deprecated, deprecation_headers
from service.settings import Settings
from tests.service.fake_translation import TRANSLATION

SINCE, UNTIL = dt.date(2027, 1, 1), dt.date(2027, 7, 2)


@pytest.fixture
def app(tmp_path) -> Application:
    """The service with an address that is to go."""
    made = create_app(Settings(database=tmp_path / "plans.sqlite3"), TRANSLATION)

    @made.get("/v1/old", openapi_extra=deprecated(since=SINCE, until=UNTIL))
    def old() -> Response:
        return Response("old")

    return made


def test_its_answers_carry_both_dates(app):
    """Since when as RFC 9745 has it, until when as RFC 8594 has it; other answers have neither."""
    with TestClient(app) as caller:
        for answer in (caller.get("/v1/old"), caller.head("/v1/old")):
            assert answer.headers["Deprecation"] == "@1798761600"
            assert answer.headers["Sunset"] == "Fri, 02 Jul 2027 00:00:00 GMT"
        assert not {"deprecation", "sunset"} & set(caller.get("/v1/units").headers)
    assert deprecation_headers({"type": "http"}) == {}


def test_the_description_says_it_too():
    """The operation is marked, for generators of clients."""
    app = FastAPI()
    app.get("/v1/old", openapi_extra=deprecated(since=SINCE, until=UNTIL))(lambda: None)
    operation = app.openapi()["paths"]["/v1/old"]["get"]
    assert (operation["deprecated"], operation["x-sunset"]) == (True, "2027-07-02")


def test_six_months_are_the_least():
    """Nothing goes sooner."""
    with pytest.raises(ValueError, match="six months"):
        deprecated(since=SINCE, until=dt.date(2027, 6, 30))
