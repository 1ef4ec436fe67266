"""A Python client generated from the description makes a whole journey."""

import subprocess
import venv
from collections.abc import Iterator
from pathlib import Path

import pytest

from service.write_openapi import PUBLISHED
from tests.service.processes import RunningService, free_port

pytestmark = pytest.mark.slow

GENERATOR = "openapi-python-client==0.29.1"
ROOT = Path(__file__).parents[2]

JOURNEY = """
import json, sys, time
from haul import Client
from haul.api.plans import create_plan, list_plans, read_plan, release_plan, delete_plan
from haul.models import PlanRequest, PlanResourceAnswer, ReleaseRequest

client = Client(base_url=sys.argv[1])
request = json.load(open(sys.argv[2]))
request["reference"] = "journey"
body = PlanRequest.from_dict(request)
made = create_plan.sync_detailed(client=client, body=body, prefer="wait=60")
assert made.status_code in (201, 202), made
plan = made.parsed
assert isinstance(plan, PlanResourceAnswer), plan
while plan.state in ("queued", "running"):
    time.sleep(0.5)
    plan = read_plan.sync(plan.plan_id, client=client)
assert plan.outcome_kind == "solved", plan
assert plan.outcome.plan.trips[0].loads[0].pack_kg > 0
listed = list_plans.sync(client=client, reference="journey")
assert [one.plan_id for one in listed.plans] == [plan.plan_id]
released = release_plan.sync(plan.plan_id, client=client, body=ReleaseRequest("desk"))
assert released.superseded_by is None and released.released_by == "desk"
nobody = PlanRequest.from_dict(request | {"roster": []})
refused = create_plan.sync_detailed(client=client, body=nobody)
assert refused.status_code == 422 and refused.parsed.errors, refused
assert delete_plan.sync_detailed(plan.plan_id, client=client).status_code == 204
assert read_plan.sync_detailed(plan.plan_id, client=client).status_code == 404
print("arrived")
"""


@pytest.fixture(scope="module")
def python(tmp_path_factory) -> Path:
    """An interpreter with the generator and what its clients need, apart from ours."""
    folder = tmp_path_factory.mktemp("generator")
    venv.create(folder, with_pip=True)
    install = [folder / "bin" / "python", "-m", "pip", "install", "--quiet", GENERATOR]
    try:
        subprocess.run(install, check=True, capture_output=True, timeout=180)
    except (subprocess.CalledProcessError, subprocess.TimeoutExpired):
        pytest.skip(f"{GENERATOR} cannot be installed here")
    return folder / "bin" / "python"


@pytest.fixture(scope="module")
def service(tmp_path_factory) -> Iterator[RunningService]:
    """The service as it is run."""
    folder = tmp_path_factory.mktemp("service")
    running = RunningService(
        environment={
            "HAULWRIGHT_PORT": str(free_port()),
            "HAULWRIGHT_DATABASE": str(folder / "plans.sqlite3"),
        },
        log=folder / "log",
        module="service",
    )
    running.start()
    yield running
    running.process.kill()
    running.process.wait()


def test_a_generated_client_makes_a_whole_journey(python, service, tmp_path):
    """It asks, waits, reads, lists, releases, is refused with faults, and deletes."""
    generator = python.parent / "openapi-python-client"
    command = [generator, "generate", "--path", PUBLISHED, "--meta", "none"]
    made = subprocess.run(
        [*command, "--output-path", tmp_path / "haul"],
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    assert made.returncode == 0, made.stdout
    run = subprocess.run(
        [python, "-c", JOURNEY, service.url, ROOT / "examples" / "smallest-request.json"],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        timeout=200,
        check=False,
    )
    assert run.stdout == "arrived\n", run.stderr
