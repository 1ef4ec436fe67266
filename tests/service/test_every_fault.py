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


def test_an_empty_address_of_a_webhook_is_one_fault(caller):
    """What the text itself cannot be is told, and nothing of where it would lead."""
    answer = caller.post("/v1/plans", json=changed(webhook_url=""))
    assert told(answer) == {("/webhook_url", "too_short")}
