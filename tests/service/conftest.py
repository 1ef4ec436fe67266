"""A running application on a database of its own, with a translation and a solver that obey.

The tables are made once, and copied or emptied: how they come to be is for the tests of migrations.
"""

import shutil
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from fastapi.testclient import TestClient
from sqlalchemy import Engine

from service import translation
from service.app import create_app
from service.settings import Settings
from service.storage.database import open_database
from service.storage.tables import Tables
from tests.service.fake_translation import TRANSLATION
from tests.service.postgres import Server, programs


@pytest.fixture(scope="session")
def postgres() -> Iterator[Server]:
    """A server of PostgreSQL; tests that need it are skipped where it is not installed."""
    found = programs()
    if found is None:
        pytest.skip("PostgreSQL is not installed")
    server = Server(found)
    server.start()
    yield server
    server.remove()


@pytest.fixture(scope="session")
def empty_file(tmp_path_factory) -> Path:
    """A file of SQLite with the newest tables and nothing in them, to copy."""
    path = tmp_path_factory.mktemp("empty") / "plans.sqlite3"
    open_database(path).dispose()
    return path


@pytest.fixture(scope="session")
def used_database(postgres: Server) -> str:
    """The address of a database of PostgreSQL that is emptied before each test."""
    return postgres.make("used")


@pytest.fixture(params=["sqlite", "postgresql"])
def database(request, tmp_path: Path) -> Iterator[Engine]:
    """A fresh database of either kind, with the newest tables."""
    if request.param == "sqlite":
        path = tmp_path / "data" / "plans.sqlite3"
        path.parent.mkdir(mode=0o700)
        shutil.copy(request.getfixturevalue("empty_file"), path)
        engine = open_database(path)
    else:
        engine = open_database(request.getfixturevalue("used_database"))
        with engine.begin() as connection:
            for table in reversed(Tables.metadata.sorted_tables):
                # Its one row is no test's: it is written again and again to see whether one can.
                if table.name != "storage_probe":
                    connection.execute(table.delete())
    yield engine
    engine.dispose()


@pytest.fixture
def settings(tmp_path: Path, empty_file: Path) -> Settings:
    """Settings for tests: a fresh database, little memory, no long waits."""
    shutil.copy(empty_file, tmp_path / "plans.sqlite3")
    return Settings(database=tmp_path / "plans.sqlite3", solve_memory_mb=400, solve_seconds=10.0)


@pytest.fixture
def client(settings: Settings) -> Iterator[TestClient]:
    """A caller of a running application."""
    with TestClient(create_app(settings, TRANSLATION), raise_server_exceptions=False) as caller:
        yield caller


def _usual_settings(folder: Path, empty_file: Path) -> Settings:
    """The settings that a service has by itself, with a fresh database in a folder."""
    return Settings(database=Path(shutil.copy(empty_file, folder / "plans.sqlite3")))


@pytest.fixture(scope="module")
def shared_client(tmp_path_factory, empty_file: Path) -> Iterator[TestClient]:
    """A caller of one application for a whole module of questions that change nothing."""
    app = create_app(_usual_settings(tmp_path_factory.mktemp("data"), empty_file), TRANSLATION)
    with TestClient(app, raise_server_exceptions=False) as caller:
        yield caller


@pytest.fixture(scope="module")
def caller(tmp_path_factory, empty_file: Path) -> Iterator[TestClient]:
    """A caller of the service as it is run, which solves; one for a whole module."""
    settings = _usual_settings(tmp_path_factory.mktemp("data"), empty_file)
    with TestClient(create_app(settings, translation.TRANSLATION)) as client:
        yield client


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
