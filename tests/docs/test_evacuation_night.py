"""The night of an evacuation: the commands of its page run as printed, from message to message."""

import json
import os
import subprocess
from collections.abc import Iterator
from pathlib import Path

import httpx
import pytest

from service.messages.text import read_message
from tests.docs.test_readme import ROOT, _wait_until_healthy, blocks
from tests.service.processes import free_port

PAGE = (ROOT / "service" / "guides" / "evacuation-night.md").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def played(tmp_path_factory) -> Iterator[tuple[Path, str]]:
    """The folder of the night, and all that its commands print."""
    folder = tmp_path_factory.mktemp("night")
    for name in ("examples", ".venv"):
        (folder / name).symlink_to(ROOT / name)
    port = free_port()
    service = subprocess.Popen(
        [ROOT / ".venv/bin/python", "-m", "service"],
        cwd=folder,
        env={**os.environ, "HAULWRIGHT_PORT": str(port)},
        stderr=subprocess.DEVNULL,
    )
    try:
        _wait_until_healthy(service, port)
        script = "set -eu -o pipefail\n" + "".join(blocks("bash", PAGE))
        done = subprocess.run(
            ["bash", "-c", script.replace("localhost:8000", f"localhost:{port}")],
            cwd=folder,
            env={**os.environ, "PYTHONPATH": str(ROOT)},
            capture_output=True,
            text=True,
            check=False,
            timeout=200,
        )
        assert done.returncode == 0, done.stderr
        yield folder, done.stdout
    except httpx.HTTPError as error:
        pytest.fail(str(error))
    finally:
        service.terminate()
        service.wait(timeout=30)


def test_it_prints_what_the_page_says(played):
    """Each line of the page's block stands in what the commands print, in its order."""
    printed = played[1]
    [told] = blocks("text", PAGE)
    at = [printed.index(line) for line in told.splitlines()]
    assert at == sorted(at)


def test_the_message_that_goes_out_first_says_that_help_is_needed(played):
    """One person goes down with help from outside; for two there is no plan."""
    answer = json.loads((played[0] / "answer.json").read_text(encoding="utf-8"))
    said = {group.name: group.values for group in read_message(answer["text"]).groups}
    assert said["goes_down"] == {"people": 1, "alone": "N"}
    assert said["plan"] == {"outcome": "N"}
    assert len(answer["text"]) <= 140


def test_in_the_morning_all_three_go_down_with_what_they_need(played):
    """The re-plan has their loads; the last message names three people who need no help."""
    replan = json.loads((played[0] / "replan.json").read_text(encoding="utf-8"))
    found = replan["outcome"]["rest"]["evacuation"]
    assert found["possible"]
    assert sorted(found["leaving"]) == ["lead", "second", "third"]
    assert found["staying"] == []
    assert {"tent", "third/toiletries"} <= {one["unit_id"] for one in found["left_behind"]}
    takes = {one["unit_id"] for one in found["takes"]}
    assert {"rope", "stove", "medical-kit"} <= takes
    out = json.loads((played[0] / "out.json").read_text(encoding="utf-8"))
    said = [(group.name, group.values) for group in read_message(out["text"]).groups]
    assert ("goes_down", {"people": 3, "alone": "Y"}) in said
    line = json.loads((played[0] / "history.json").read_text(encoding="utf-8"))
    assert line["plans"][-1]["counted"]["evacuation"]["how"] == "walks"
