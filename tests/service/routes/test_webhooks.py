"""Asking for a webhook, and reading how it stands."""

import pytest
from fastapi.testclient import TestClient

from service.app import create_app
from service.errors import RequestFaults
from service.routes import webhooks
from service.routes.asked_webhook import asked_webhook
from service.settings import Settings
from tests.service.fake_translation import TRANSLATION

SECRET = "s" * 40


@pytest.mark.parametrize("route", webhooks.router.routes, ids=lambda route: route.name)
def test_a_plan_without_a_webhook_has_none(client, route):
    """Its address is not there."""
    plan_id = client.post("/v1/plans", json={}).json()["plan_id"]
    (method,) = route.methods
    assert client.request(method, route.path.format(plan_id=plan_id)).status_code == 404


def test_what_was_asked_is_taken_where_the_settings_allow_it():
    """None is none, an address is itself, and one that cannot be used is a fault."""
    settings = Settings(webhook_secret=SECRET)
    url = "https://trips.example/hooks"
    assert asked_webhook(settings, {}) is None
    assert asked_webhook(settings, {"webhook_url": url}) == url
    with pytest.raises(RequestFaults):
        asked_webhook(settings, {"webhook_url": "https://localhost/"})


@pytest.mark.parametrize(
    ("options", "url", "code"),
    [
        ({}, "https://trips.example/x", "webhooks_off"),
        ({"webhook_secret": SECRET}, "http://trips.example/x", "webhook_url_refused"),
        ({"webhook_secret": SECRET}, "https://10.0.0.1/x", "webhook_url_refused"),
    ],
)
def test_an_address_that_this_service_would_not_use_is_a_fault(tmp_path, options, url, code):
    """Where webhooks are off, or the address cannot be right, nothing is stored."""
    settings = Settings(database=tmp_path / "plans.sqlite3", **options)
    with TestClient(create_app(settings, TRANSLATION)) as caller:
        with_more = caller.post("/v1/plans", json={"webhook_url": url, "faults": 2})
        assert len(with_more.json()["errors"]) == 3
        answer = caller.post("/v1/plans", json={"webhook_url": url})
        assert answer.status_code == 422
        (fault,) = answer.json()["errors"]
        assert (fault["pointer"], fault["code"]) == ("/webhook_url", code)
        assert caller.get("/v1/plans").json()["plans"] == []
