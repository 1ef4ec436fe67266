"""TypeScript types generated from the description compile, and a client with them arrives."""

import shutil
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest

from service.write_openapi import PUBLISHED
from tests.service.npm_tools import npm_tools
from tests.service.processes import RunningService, free_port

pytestmark = pytest.mark.slow

JOURNEY = Path(__file__).with_name("journey.ts")
COMPILED = ("--strict", "--target", "es2022", "--module", "commonjs", "--lib", "es2022,dom")


@pytest.fixture(scope="module")
def programs() -> Path:
    """The generator and the compiler."""
    return npm_tools("openapi-typescript@7.13.0", "typescript@5.9.3")


@pytest.fixture(scope="module")
def folder(programs, tmp_path_factory) -> Path:
    """The journey beside the generated types, compiled; the generator has its default settings."""
    folder = tmp_path_factory.mktemp("typescript")
    shutil.copy(JOURNEY, folder)
    made = subprocess.run(
        [programs / "openapi-typescript", PUBLISHED, "--output", folder / "api.d.ts"],
        capture_output=True, text=True, timeout=200, check=False,
    )  # fmt: skip
    assert made.returncode == 0, made.stdout + made.stderr
    built = subprocess.run(
        [programs / "tsc", *COMPILED, "journey.ts"],
        cwd=folder, capture_output=True, text=True, timeout=200, check=False,
    )  # fmt: skip
    assert built.returncode == 0, built.stdout
    return folder


@pytest.fixture(scope="module")
def service(tmp_path_factory) -> Iterator[RunningService]:
    """The service as it is run."""
    place = tmp_path_factory.mktemp("service")
    running = RunningService(
        environment={
            "HAULWRIGHT_PORT": str(free_port()),
            "HAULWRIGHT_DATABASE": str(place / "plans.sqlite3"),
        },
        log=place / "log",
        module="service",
    )
    running.start()
    yield running
    running.process.kill()
    running.process.wait()


def test_a_client_with_generated_types_makes_a_whole_journey(folder, service):
    """Its request has only what is required, and it asks, waits, reads, is refused, and deletes."""
    run = subprocess.run(
        ["node", "journey.js", service.url],
        cwd=folder, capture_output=True, text=True, timeout=200, check=False,
    )  # fmt: skip
    assert run.stdout == "arrived\n", run.stderr


def test_the_compiler_refuses_a_request_without_a_required_field(folder, programs):
    """The types are no empty ones: a request without a calendar does not compile."""
    text = JOURNEY.read_text(encoding="utf-8")
    without = "\n".join(line for line in text.splitlines() if not line.startswith("  calendar:"))
    (folder / "without.ts").write_text(without, encoding="utf-8")
    built = subprocess.run(
        [programs / "tsc", *COMPILED, "--noEmit", "without.ts"],
        cwd=folder, capture_output=True, text=True, timeout=200, check=False,
    )  # fmt: skip
    assert built.returncode != 0
    assert "calendar" in built.stdout
