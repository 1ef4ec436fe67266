"""Parts that several programs of the service put together from the settings."""

import subprocess
import sys
from pathlib import Path

import pytest

from service import process_parts
from service.jobs.desks import DesksInline, DesksInProcesses
from service.jobs.machine_share import MachineShare
from service.settings import Settings
from service.storage.database import open_database
from service.storage.wishes import Wishes
from service.translation import TRANSLATION as REAL
from tests.service.fake_translation import TRANSLATION as FAKE


@pytest.fixture
def settings(tmp_path: Path) -> Settings:
    """A lease of 12 s, and a database of its own."""
    return Settings(database=tmp_path / "plans.sqlite3", lease_seconds=12)


NO_PART_OF_A_DESK = {"alembic", "fastapi", "highspy", "ortools", "procrastinate", "sqlalchemy"}


def test_a_desk_loads_no_web_service_no_database_and_no_solver() -> None:
    """What its fork server loads before the first question, in a process of its own."""
    code = (
        "import sys; from service.jobs.fork_server import find_job; find_job(sys.argv[1]);"
        "print(*{name.partition('.')[0] for name in sys.modules})"
    )
    command = [sys.executable, "-c", code, REAL.desk_job]
    told = subprocess.run(command, capture_output=True, text=True, check=True)
    loaded = set(told.stdout.split())
    assert {"pydantic", "service", "solver"} <= loaded
    assert not loaded & NO_PART_OF_A_DESK


def test_only_a_translation_with_a_desk_job_has_desks_of_its_own(settings: Settings) -> None:
    """A translation that only has functions is asked in the process itself."""
    assert FAKE.desk_job is None
    inline = process_parts.open_desks(settings, FAKE, MachineShare())
    apart = process_parts.open_desks(settings, REAL, MachineShare())
    try:
        assert isinstance(inline, DesksInline)
        assert isinstance(apart, DesksInProcesses)
    finally:
        apart.close()


def test_a_lease_is_renewed_three_times_before_it_ends(settings: Settings, monkeypatch) -> None:
    """So two renewals may fail and the plan still belongs to its worker."""
    made: dict[str, object] = {}
    monkeypatch.setattr(
        process_parts,
        "PlanWork",
        lambda queue, _wishes, _solves, how, **_: made.update(queue=queue, how=how),
    )
    database = open_database(settings.database_address())
    try:
        queue = process_parts.open_queue(database, settings)
        process_parts.plan_work(
            settings, None, queue, Wishes(database), on_finished=lambda _plan_id: None
        )
    finally:
        database.dispose()
    how = made["how"]
    assert made["queue"] is queue
    assert how.renew_seconds == 4
    assert how.outcome_kind(b'{"outcome": "solved", "plan": {}}') == "solved"
