"""The application, its server and its programs are put together from the settings."""

import asyncio
import resource
from itertools import pairwise
from types import SimpleNamespace

import pytest
from alembic.config import Config
from alembic.script import ScriptDirectory
from fastapi import Request

from service import __main__, wiring
from service.app import create_app
from service.server import HandingBackServer, QuietHandler, raise_descriptor_limit
from service.settings import Settings
from service.storage.migrations.versions import (
    m0001_plans,
    m0002_engines,
    m0003_idempotency,
    m0004_keys,
    m0005_comparisons,
    m0006_job_queue,
    m0007_replans,
    m0008_lasting,
    m0009_webhooks,
    m0010_library,
    m0011_documents_last,
    m0012_what_if,
    m0013_reports,
    m0014_stress_tests,
    m0015_sent_digests,
    m0016_former_plans,
)
from service.storage.tables import PlanRow, Tables
from service.wiring import Wiring
from tests.service.fake_translation import TRANSLATION


def test_the_server_listens_where_the_settings_say(settings):
    """Host and port come from the settings, and the application is told of its start and end."""
    at = settings.model_copy(update={"host": "127.0.0.2", "port": 8123})
    server = HandingBackServer(create_app(at, TRANSLATION), at)
    assert (server.config.host, server.config.port) == ("127.0.0.2", 8123)
    assert server.config.lifespan == "on"


def test_routes_find_the_wiring_on_the_application(client):
    """What the start put together is what a route is handed."""
    request = Request({"type": "http", "app": client.app})
    found = asyncio.run(wiring._wiring(request))
    assert isinstance(found, Wiring)
    assert found.translation is TRANSLATION


def test_the_program_ends_with_the_message_of_wrong_settings(monkeypatch):
    """`python -m service` with a wrong port ends with a message and without a traceback."""
    monkeypatch.setenv("HAULWRIGHT_PORT", "0")
    with pytest.raises(SystemExit, match="HAULWRIGHT_PORT"):
        __main__.main()


def test_the_first_migration_begins_the_line_and_can_be_undone():
    """It has no predecessor, one head follows, and it names the table of plans."""
    config = Config()
    config.set_main_option("script_location", "service:storage/migrations")
    scripts = ScriptDirectory.from_config(config)
    assert m0001_plans.down_revision is None
    assert scripts.get_base() == m0001_plans.revision
    line = (
        m0001_plans,
        m0002_engines,
        m0003_idempotency,
        m0004_keys,
        m0005_comparisons,
        m0006_job_queue,
        m0007_replans,
        m0008_lasting,
        m0009_webhooks,
        m0010_library,
        m0011_documents_last,
        m0012_what_if,
        m0013_reports,
        m0014_stress_tests,
        m0015_sent_digests,
        m0016_former_plans,
    )
    for earlier, later in pairwise(line):
        assert later.down_revision == earlier.revision
    assert len(scripts.get_heads()) == 1
    assert PlanRow.__tablename__ in Tables.metadata.tables


def test_settings_cannot_be_changed_once_they_are_read():
    """A setting is read once; nobody writes into it later."""
    with pytest.raises(ValueError, match="frozen"):
        Settings().port = 1


def test_a_lack_of_connections_is_told_once(caplog):
    """A thousand refusals of the system in a row make one line; another fault is passed on."""
    handler, passed_on = QuietHandler(), []
    loop = SimpleNamespace(default_exception_handler=passed_on.append)
    for _ in range(1000):
        handler(loop, {"message": "socket.accept() out of system resource"})
    assert len(caplog.records) == 1
    handler(loop, {"message": "another"})
    assert passed_on == [{"message": "another"}]


def test_connections_and_headers_are_limited(settings):
    """The server takes as many connections as the settings say, and headers of 32 KiB."""
    at = settings.model_copy(update={"connection_limit": 7})
    config = HandingBackServer(create_app(at, TRANSLATION), at).config
    assert config.http.limits.connections == 7
    assert config.h11_max_incomplete_event_size == 32 * 1024


def test_the_limit_of_open_files_is_only_raised():
    """A process that may open more files than wanted keeps its limit."""
    before = resource.getrlimit(resource.RLIMIT_NOFILE)
    raise_descriptor_limit(1)
    assert resource.getrlimit(resource.RLIMIT_NOFILE) == before
