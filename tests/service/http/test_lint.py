"""Two linters of API descriptions find nothing that is not explained here."""

import json
import os
import subprocess
from pathlib import Path

import pytest

from service.write_openapi import PUBLISHED
from tests.service.npm_tools import npm_tools

pytestmark = pytest.mark.slow

EXPLAINED = {
    # The data of an event in a stream, which OpenAPI 3.1 has no way to refer to.
    ("no-unused-components", "#/components/schemas/PlanEventAnswer"),
}
REDOCLY, SPECTRAL = "@redocly/cli@2.55.0", "@stoplight/spectral-cli@6.16.3"


@pytest.fixture(scope="module")
def programs() -> Path:
    """Both linters."""
    return npm_tools(REDOCLY, SPECTRAL)


def redocly(programs: Path, description: Path) -> list[tuple[str, str]]:
    """Rule and place of each finding of redocly's recommended rules."""
    run = subprocess.run(
        [programs / "redocly", "lint", description, "--extends", "recommended", "--format", "json"],
        capture_output=True, text=True, timeout=200, check=False,
        env={**os.environ, "REDOCLY_TELEMETRY": "off", "REDOCLY_SUPPRESS_UPDATE_NOTICE": "true"},
    )  # fmt: skip
    told = json.loads(run.stdout[run.stdout.index("{") :])
    return [(one["ruleId"], one["location"][0].get("pointer", "")) for one in told["problems"]]


def spectral(programs: Path, folder: Path, description: Path) -> list[tuple[str, str]]:
    """Rule and place of each finding of spectral's rules for OpenAPI."""
    rules = folder / "rules.yaml"
    rules.write_text('extends: ["spectral:oas"]\n', encoding="utf-8")
    run = subprocess.run(
        [programs / "spectral", "lint", description, "--ruleset", rules, "--format", "json"],
        capture_output=True, text=True, timeout=200, check=False,
    )  # fmt: skip
    told = json.loads(run.stdout[run.stdout.index("[") : run.stdout.rindex("]") + 1])
    return [(one["code"], "/".join(map(str, one["path"]))) for one in told]


def test_redocly_finds_nothing_that_is_not_explained(programs):
    """No error and no warning by the recommended rules, but those that are listed with a reason."""
    assert set(redocly(programs, PUBLISHED)) == EXPLAINED


def test_spectral_finds_nothing(programs, tmp_path):
    """No error, warning or hint."""
    assert spectral(programs, tmp_path, PUBLISHED) == []


def test_the_linters_see_what_is_wrong(programs, tmp_path):
    """A description without the security and the tags of an operation is faulted by both."""
    document = json.loads(PUBLISHED.read_text(encoding="utf-8"))
    operation = document["paths"]["/v1/units"]["get"]
    del operation["security"], operation["operationId"]
    operation["tags"] = ["nobody knows"]
    spoilt = tmp_path / "spoilt.json"
    spoilt.write_text(json.dumps(document), encoding="utf-8")
    assert "security-defined" in {rule for rule, _ in redocly(programs, spoilt)}
    assert "operation-tag-defined" in {rule for rule, _ in spectral(programs, tmp_path, spoilt)}
