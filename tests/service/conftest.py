"""A running application on a database of its own, with a translation and a solver that obey."""

import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from fastapi.testclient import TestClient

from service.app import create_app
from service.settings import Settings
from tests.service.fake_translation import TRANSLATION


@pytest.fixture
def settings(tmp_path: Path) -> Settings:
    """Settings for tests: a fresh database, little memory, no long waits."""
    return Settings(database=tmp_path / "plans.sqlite3", solve_memory_mb=400, solve_seconds=10.0)


@pytest.fixture
def client(settings: Settings) -> Iterator[TestClient]:
    """A caller of a running application."""
    with TestClient(create_app(settings, TRANSLATION), raise_server_exceptions=False) as caller:
        yield caller


@pytest.fixture(scope="module")
def shared_client(tmp_path_factory) -> Iterator[TestClient]:
    """A caller of one application for a whole module of questions that change nothing."""
    settings = Settings(database=tmp_path_factory.mktemp("data") / "plans.sqlite3")
    with TestClient(create_app(settings, TRANSLATION), raise_server_exceptions=False) as caller:
        yield caller


@pytest.fixture
def finished(client: TestClient) -> Callable[[str], dict]:
    """Waits until the plan of that name is final, and gives it."""

    def wait(plan_id: str) -> dict:
        until = time.monotonic() + 20
        while time.monotonic() < until:
            plan = client.get(f"/v1/plans/{plan_id}").json()
            if plan["state"] in ("done", "failed"):
                return plan
            time.sleep(0.03)
        raise AssertionError(f"still {plan['state']} after 20 s")

    return wait
