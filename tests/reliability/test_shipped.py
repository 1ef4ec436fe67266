"""What docker/ ships, as far as files alone can say; `run.sh image` builds and runs it."""

import asyncio
import importlib.util
import re
import signal
import time
from pathlib import Path

import httpx
import pytest

from api_schema.examples import SMALLEST_REQUEST
from service.settings import OF_OTHER_PROGRAMS, PREFIX, Settings
from service.worker import show_life
from tests.reliability.compose import MANY, ONE, parts
from tests.reliability.topology import topology
from tests.service.postgres import programs
from tests.service.processes import CALLER, until

ROOT = Path(__file__).parents[2]
DOCKERFILE = (ROOT / "docker" / "Dockerfile").read_text(encoding="utf-8")
PARTS = [*parts(ONE), *parts(MANY)]


@pytest.mark.parametrize("part", PARTS, ids=lambda part: part.name)
def test_a_part_of_a_compose_file_is_one_that_we_have(part):
    """It runs a module that exists, with settings that exist, and its health can be seen."""
    program, option, module = part.command
    assert (program, option) == ("python", "-m")
    assert importlib.util.find_spec(module) is not None
    known = {PREFIX + name.upper() for name in Settings.model_fields} | OF_OTHER_PROGRAMS
    assert set(part.environment) <= known
    assert part.health_command or "HEALTHCHECK" in DOCKERFILE
    assert part.name != "worker" or part.environment["HAULWRIGHT_ALIVE_FILE"] in " ".join(
        part.health_command
    )


@pytest.mark.parametrize("part", PARTS, ids=lambda part: part.name)
def test_a_part_of_a_compose_file_has_no_rights_that_it_does_not_need(part):
    """Its tree is read-only but for a small /tmp, and it has no capabilities."""
    assert part.settings["read_only"] is True
    assert part.settings["cap_drop"] == ["ALL"]
    assert part.settings["security_opt"] == ["no-new-privileges:true"]
    (place,) = part.settings["tmpfs"]
    assert re.fullmatch(r"/tmp:size=\d+m,mode=1777", place)  # noqa: S108 - in the container
    published = [str(port) for port in part.settings.get("ports", [])]
    assert all(port.startswith("127.0.0.1:") for port in published)


@pytest.mark.parametrize("part", PARTS, ids=lambda part: part.name)
def test_the_files_that_a_part_may_receive_fit_its_temporary_folder(part):
    """All that are received at the same time, as large as they may be, with a megabyte to spare."""
    settings = {k.removeprefix(PREFIX).lower(): v for k, v in part.environment.items()}
    (place,) = part.settings["tmpfs"]
    mebibytes = int(re.search(r"size=(\d+)m", place)[1])
    assert Settings(**settings).file_room_bytes() <= (mebibytes - 1) * 2**20


@pytest.mark.parametrize("part", PARTS, ids=lambda part: part.name)
def test_a_part_that_needs_no_key_names_its_hosts(part):
    """A page in a browser can lead a name of its own to a port of this machine, and read plans."""
    settings = {k.removeprefix(PREFIX).lower(): v for k, v in part.environment.items()}
    read = Settings(host="0.0.0.0", **settings)  # noqa: S104 - as in the image
    assert read.needs_keys() or read.known_hosts() >= {"localhost", "127.0.0.1"}


def test_the_topology_is_an_api_and_two_workers():
    """The compose file of the distributed engine has both, on one database."""
    found = {part.name: part for part in parts(MANY)}
    assert {name: part.replicas for name, part in found.items()} == {"api": 1, "worker": 2}
    addresses = {part.environment["HAULWRIGHT_DATABASE_URL"] for part in found.values()}
    assert len(addresses) == 1


def test_the_image_runs_as_a_numbered_user_with_a_health_check():
    """The last stage names user and group by number, so that it is seen not to be root."""
    last = DOCKERFILE.rpartition("\nFROM ")[2]
    assert re.search(r"^USER (?!0)\d+:\d+$", last, re.MULTILINE)
    assert "HEALTHCHECK" in last
    assert "pip install" not in last


def test_a_worker_that_cannot_work_lets_its_file_grow_old(tmp_path):
    """The file is touched while the storage answers, and not any more when it does not."""
    alive = tmp_path / "alive"
    answers = iter([True, False])

    async def look() -> None:
        await asyncio.wait_for(show_life(str(alive), lambda: next(answers)), 1.1)

    with pytest.raises((TimeoutError, RuntimeError)):
        asyncio.run(look())
    assert time.time() - alive.stat().st_mtime > 0.9
    asyncio.run(show_life("", lambda: pytest.fail("a worker without a file was asked")))


@pytest.mark.slow
@pytest.mark.skipif(programs() is None, reason="PostgreSQL is not installed")
def test_the_topology_solves_as_a_plain_script():
    """PostgreSQL, an API and two workers, started as the compose file says, solve a request."""
    with topology() as (url, processes):
        assert len(processes) == 3

        def is_ready() -> bool:
            try:
                return CALLER.get(f"{url}/readyz", timeout=30).status_code == 200
            except httpx.TransportError:
                return False

        until(is_ready, seconds=400)
        answer = CALLER.post(
            f"{url}/v1/plans", json=SMALLEST_REQUEST, headers={"Prefer": "wait=60"}, timeout=90
        )
        assert answer.json()["outcome_kind"] == "solved"
    # The web server ends in good order and then by the signal that it was sent.
    ends = [process.returncode for process in processes]
    assert ends in ([-signal.SIGTERM, 0, 0], [0, 0, 0])
