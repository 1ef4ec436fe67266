"""Headers that stand in the description are those that answers have."""

from fastapi.testclient import TestClient

from service.app import create_app
from service.http.described_headers import REFERRED
from tests.service.fake_translation import TRANSLATION


def described(client) -> dict:
    """The description that the service gives."""
    return client.get("/openapi.json").json()


def test_every_401_says_how_to_show_a_key(shared_client):
    """The header is described once, and each 401 refers to it."""
    document = described(shared_client)
    answers = [
        operation["responses"]["401"]
        for path in document["paths"].values()
        for operation in path.values()
        if "401" in operation["responses"]
    ]
    assert len(answers) > 50
    for answer in answers:
        assert answer["headers"]["WWW-Authenticate"] == REFERRED["WWW-Authenticate"]
    assert "Bearer" in document["components"]["headers"]["WWW-Authenticate"]["description"]


def test_the_id_of_a_request_is_described_once(shared_client):
    """In the words for all, and where something broke and the id is worth telling."""
    document = described(shared_client)
    assert "`X-Request-Id`" in document["info"]["description"]
    for path in document["paths"].values():
        for operation in path.values():
            broken = operation["responses"].get("500")
            if broken is not None:
                assert broken["headers"]["X-Request-Id"] == REFERRED["X-Request-Id"]
    assert set(document["components"]["headers"]) == set(REFERRED)


def test_a_refusal_without_a_key_has_both(settings):
    """A caller's own id comes back, and the header names the kind of key."""
    guarded = settings.model_copy(update={"keys": "required"})
    with TestClient(create_app(guarded, TRANSLATION)) as caller:
        answer = caller.get("/v1/plans", headers={"X-Request-Id": "my-own-1"})
    assert answer.status_code == 401
    assert answer.headers["X-Request-Id"] == "my-own-1"
    assert answer.headers["WWW-Authenticate"].startswith("Bearer ")
