"""Each guide's commands run as they are printed; the guides that are lists are complete."""

import ast
import os
import re
import subprocess
from pathlib import Path

import pytest

from service.errors import PROBLEMS
from service.settings import PREFIX, Settings
from tests.docs.fault_codes import _codes, fault_codes
from tests.docs.fault_texts import FAULTS
from tests.docs.test_readme import blocks
from tests.docs.write_lists import GUIDES, LISTS
from tests.service.processes import RunningService, free_port

ROOT = Path(__file__).parents[2]
PRINTED = {
    "curl.md": ["409", "304", "422 invalid_request", "204"],
    "integrator.md": ["addresses", '"status":"ok"', "/v1/plans/plan_", "done solved", "200"],
    "operations.md": ["http://"],
    "questions.md": ["base solved", "a third stove solved"],
    "leader.md": ["You can sit", "SUPERSEDED", "Spent:", "Fuel of all:", "take it", "says little"],
}
"""What the commands of each guide print, in this order."""


@pytest.fixture(scope="module")
def service(tmp_path_factory):
    """The service as it is run, for all guides."""
    folder = tmp_path_factory.mktemp("service")
    environment = {
        "HAULWRIGHT_PORT": str(free_port()),
        "HAULWRIGHT_DATABASE": str(folder / "plans.sqlite3"),
    }
    made = RunningService(environment, folder / "log", module="service")
    try:
        made.start()
        yield made
    finally:
        made.process.terminate()
        made.process.wait(timeout=20)


@pytest.mark.slow
@pytest.mark.parametrize("guide", PRINTED)
def test_every_command_of_a_guide_succeeds(service, tmp_path, guide):
    """No command fails, and what it prints is what the guide is about."""
    (tmp_path / "examples").symlink_to(ROOT / "examples")
    text = (GUIDES / guide).read_text(encoding="utf-8")
    ready = f"until curl -s {service.url}/readyz | grep -q '\"ok\"'; do sleep 0.2; done\n"
    script = "set -eu -o pipefail\n" + ready + "".join(blocks("bash", text))
    run = subprocess.run(
        ["bash", "-c", script.replace("http://localhost:8000", service.url)],
        cwd=tmp_path, env={**os.environ, "no_proxy": "*"},
        capture_output=True, text=True, check=False, timeout=200,
    )  # fmt: skip
    assert run.returncode == 0, run.stdout + run.stderr
    at = 0
    for words in PRINTED[guide]:
        at = run.stdout.index(words, at) + len(words)


@pytest.mark.parametrize("guide", PRINTED)
def test_a_guide_is_short_and_names_addresses_of_the_service(guide):
    """A guide fits on three sheets, and each address that it names is in the description."""
    text = (GUIDES / guide).read_text(encoding="utf-8")
    assert len(text.splitlines()) <= 110
    paths = (ROOT / "api_schema/openapi.v1.json").read_text(encoding="utf-8")
    for address in re.findall(r"`(?:GET |POST )?(/v1/[a-z/-]+)`", text):
        assert f'"{address}"' in paths, address


@pytest.mark.parametrize("name", LISTS)
def test_a_list_is_current(name):
    """Written anew, the list stays as it is; else run python -m tests.docs.write_lists."""
    assert LISTS[name]() == (GUIDES / name).read_text(encoding="utf-8")


def test_every_problem_and_every_setting_has_its_heading():
    """No code and no variable is missing, and each setting says what it is."""
    problems, settings = LISTS["problems.md"](), LISTS["settings.md"]()
    assert all(f"\n## `{code}`\n" in problems for code in PROBLEMS)
    assert all(f"\n## `{PREFIX}{name.upper()}`\n" in settings for name in Settings.model_fields)
    assert all(field.description for field in Settings.model_fields.values())


def test_every_fault_has_its_heading_with_cause_and_remedy():
    """The codes in the source are those of the list, each with a sentence or two for both."""
    codes = fault_codes()
    assert len(codes) > 100
    assert codes == set(FAULTS)
    faults = LISTS["faults.md"]()
    for code, sentences in FAULTS.items():
        assert f"\n## `{code}`\n" in faults
        assert all(one.strip() and one.endswith(".") for one in sentences), code


def test_a_code_that_is_new_would_be_seen():
    """A planted fault in a file of code is found by its code, given by place or by name."""
    planted = 'notes.fault("/x", "planted_code", "x")\nFault("", code="other_code", detail="x")'
    assert set(_codes(ast.parse(planted))) == {"planted_code", "other_code"}
