"""A Python client generated from the description makes a whole journey, and compares rosters."""

import json
import os
import subprocess
import venv
from collections.abc import Iterator
from pathlib import Path

import pytest

from service.write_openapi import PUBLISHED
from tests.benchmarks.compared_rosters import comparison_of
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

COMPARED = """
import json, sys, time
from haul import Client
from haul.api.comparisons import create_comparison, read_comparison
from haul.models import ComparisonAnswer, ComparisonRequest

client = Client(base_url=sys.argv[1], timeout=120)
body = ComparisonRequest.from_dict(json.load(open(sys.argv[2])))
made = create_comparison.sync_detailed(client=client, body=body)
assert made.status_code == 202, made
told = made.parsed
assert isinstance(told, ComparisonAnswer), told
while not told.done:
    time.sleep(1)
    told = read_comparison.sync(told.comparison_id, client=client)
rows = [
    {
        "name": row.name,
        "edits": row.edits,
        "state": row.state,
        "outcome": row.figures.outcome,
        "reason": row.figures.reason,
        "people": row.figures.people,
        "peak": row.figures.peak,
        "changed": sorted(part.where for part in row.input_),
    }
    for row in told.rows
]
print(json.dumps({"rows": rows, "chosen": told.chosen.name}))
"""

IS_LONG = "HAULWRIGHT_LONG" in os.environ
SOLVE_SECONDS = 60 if IS_LONG else 2
"""In a minute each roster is solved; two seconds are enough for an outcome in every row."""


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


@pytest.fixture(scope="module")
def folder(python, tmp_path_factory) -> Path:
    """Where the generated client stands."""
    folder = tmp_path_factory.mktemp("client")
    generator = python.parent / "openapi-python-client"
    command = [generator, "generate", "--path", PUBLISHED, "--meta", "none"]
    made = subprocess.run(
        [*command, "--output-path", folder / "haul"],
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    assert made.returncode == 0, made.stdout
    return folder


def ran(python: Path, folder: Path, program: str, *arguments: object, seconds: float) -> str:
    """What a program that uses the client prints."""
    run = subprocess.run(
        [python, "-c", program, *map(str, arguments)],
        cwd=folder,
        capture_output=True,
        text=True,
        timeout=seconds,
        check=False,
    )
    assert run.returncode == 0, run.stderr
    return run.stdout


def test_a_generated_client_makes_a_whole_journey(python, folder, service):
    """It asks, waits, reads, lists, releases, is refused with faults, and deletes."""
    example = ROOT / "examples" / "smallest-request.json"
    assert ran(python, folder, JOURNEY, service.url, example, seconds=200) == "arrived\n"


def test_a_generated_client_reads_twenty_rosters_of_twelve(python, folder, service, tmp_path):
    """Each roster is a row with its own caps and an outcome; in a minute each, all have a plan."""
    base = json.loads((ROOT / "examples" / "guided-twelve.json").read_text(encoding="utf-8"))
    base["options"] = {"time_limit": f"{SOLVE_SECONDS} s"}
    body = comparison_of(base, 20) | {"choose": {"goal": "least", "figure": "peak"}}
    (tmp_path / "body.json").write_text(json.dumps(body), encoding="utf-8")
    seconds = 3600 if IS_LONG else 300
    text = ran(python, folder, COMPARED, service.url, tmp_path / "body.json", seconds=seconds)
    rows = json.loads(text)["rows"]
    assert [row["name"] for row in rows] == ["base", *(one["name"] for one in body["variants"])]
    for row, variant in zip(rows[1:], body["variants"], strict=True):
        assert len(row["edits"]) == len(variant["edits"])
        assert any(where.startswith("/roster") for where in row["changed"])
    assert all(row["peak"] or row["reason"] for row in rows)
    if IS_LONG:
        assert [row["name"] for row in rows if row["outcome"] != "solved"] == []
        least = min(row["peak"] for row in rows)
        assert json.loads(text)["chosen"] == next(r["name"] for r in rows if r["peak"] == least)
