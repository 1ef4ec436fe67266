"""Asking for a webhook, and reading how it stands."""

from dataclasses import replace

import pytest
from fastapi.testclient import TestClient

from api_schema.examples import SMALLEST_REQUEST
from service.app import create_app
from service.errors import RequestFaults
from service.routes import webhooks
from service.routes.asked_webhook import asked_webhook
from service.settings import Settings
from service.translation import TRANSLATION as REAL_TRANSLATION
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


WAIT = {"Prefer": "wait=50"}


def _re_planned(settings: Settings, plan_id: str) -> tuple[str, bool]:
    """The name of a plan's re-plan, and whether a note of it will be sent."""
    with TestClient(create_app(settings, replace(REAL_TRANSLATION, desk_job=None))) as caller:
        state = {"at": {"day": 2, "moment": "evening"}}
        answer = caller.post(f"/v1/plans/{plan_id}/replans", json=state, headers=WAIT)
        assert answer.status_code == 201, answer.text
        name = answer.json()["plan_id"]
        return name, caller.get(f"/v1/plans/{name}/webhook").status_code == 200


def test_an_address_that_may_not_be_used_any_more_stops_no_re_plan(tmp_path, caplog):
    """Whoever is under way cannot mend the first request: it is re-planned without a note.

    The log says so. Where the settings still allow the address, the note goes there.
    """
    open_to_any = Settings(
        database=tmp_path / "plans.sqlite3", webhook_secret=SECRET, webhook_targets="any"
    )
    translation = replace(REAL_TRANSLATION, desk_job=None)
    request = SMALLEST_REQUEST | {"webhook_url": "http://127.0.0.1:9/secret"}
    with TestClient(create_app(open_to_any, translation)) as caller:
        first = caller.post("/v1/plans", json=request, headers=WAIT).json()["plan_id"]
    assert _re_planned(open_to_any, first)[1]
    told = []
    for changed in ({"webhook_secret": ""}, {"webhook_targets": "public"}):
        caplog.clear()
        _, with_note = _re_planned(open_to_any.model_copy(update=changed), first)
        assert not with_note
        told += [line for line in caplog.messages if line.startswith(f"re-plan of {first}")]
        assert "/secret" not in caplog.text
    assert told == [
        f"re-plan of {first}: no webhook, {code}"
        for code in ("webhooks_off", "webhook_url_refused")
    ]
