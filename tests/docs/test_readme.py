"""The README's commands, run as they are printed, print what the README says."""

import csv
import json
import os
import re
import shutil
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import httpx
import pytest

from solver.rulebook import RULES
from tests.service.processes import CALLER, free_port

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
FENCED = re.compile(r"^```(bash|text)\n(.*?)^```$", re.MULTILINE | re.DOTALL)


def blocks(kind: str, text: str = README) -> list[str]:
    """The fenced blocks of one kind, in order."""
    return [body for found, body in FENCED.findall(text) if found == kind]


@pytest.fixture(scope="module", params=["bash", "zsh"])
def session(request, tmp_path_factory) -> Iterator[tuple[Path, subprocess.CompletedProcess]]:
    """The whole session with curl, run in a folder of its own: the folder and what came of it."""
    shell = shutil.which(request.param)
    if shell is None:
        pytest.skip(f"{request.param} is not installed")
    folder = tmp_path_factory.mktemp("session")
    for name in ("examples", ".venv"):
        (folder / name).symlink_to(ROOT / name)
    port = free_port()
    start, *commands = blocks("bash", README.partition("## A session with curl")[2])
    service = subprocess.Popen(
        ["bash", "-c", f"exec {start}"],
        cwd=folder,
        env={**os.environ, "HAULWRIGHT_PORT": str(port)},
        stderr=subprocess.DEVNULL,
    )
    try:
        _wait_until_healthy(service, port)
        script = "set -eu -o pipefail\n" + "".join(commands)
        yield (
            folder,
            subprocess.run(
                [shell, "-c", script.replace("localhost:8000", f"localhost:{port}")],
                cwd=folder,
                capture_output=True,
                text=True,
                check=False,
                timeout=120,
            ),
        )
    finally:
        service.terminate()
        service.wait(timeout=20)


def _wait_until_healthy(service: subprocess.Popen, port: int) -> None:
    until = time.monotonic() + 60
    while time.monotonic() < until:
        assert service.poll() is None, "the service ended"
        try:
            if CALLER.get(f"http://127.0.0.1:{port}/healthz").status_code == 200:
                return
        except httpx.TransportError:
            time.sleep(0.1)
    raise AssertionError("the service was not healthy in time")


def checked(folder: Path, name: str) -> dict:
    """The verdict in a file that the session wrote."""
    return json.loads((folder / name).read_text(encoding="utf-8"))["check"]


def test_the_first_screen_has_the_two_commands():
    """The first two commands are the plan and the tests, before the second heading."""
    assert blocks("bash", README.partition("\n## ")[0]) == [
        "bash examples/first-plan.sh\n",
        "bash tests/run.sh\n",
    ]


def test_every_command_of_the_session_succeeds(session):
    """No command of the session fails, and the printed plan passed its check."""
    _, run = session
    assert run.returncode == 0, run.stderr
    assert "independent check: passed" in run.stdout


def test_the_session_prints_what_the_readme_shows(session):
    """Each block of output in the README appears in the session's output word for word."""
    _, run = session
    shown = blocks("text")
    assert len(shown) == 2
    for block in shown:
        assert block in run.stdout


def test_the_csv_views_are_tables_of_the_plan(session):
    """The CSV of the loads has the trips of the JSON, and that of the stock begins at the start."""
    folder, _ = session
    loads = json.loads((folder / "loads.json").read_text(encoding="utf-8"))
    with (folder / "loads.csv").open(newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    assert {(row["day"], row["step"]) for row in rows} == {
        (str(trip["day"]), str(trip["step"])) for trip in loads["trips"]
    }
    with (folder / "stock.csv").open(newline="", encoding="utf-8") as file:
        assert next(csv.DictReader(file))["day"] == "0"


def test_the_shelter_is_moved_and_the_bag_is_missed(session):
    """The moved shelter passes on another sled; the bag left behind is the one finding."""
    folder, _ = session
    sent = json.loads((folder / "moved.json").read_text(encoding="utf-8"))["plan"]
    ours = json.loads((folder / "answer.json").read_text(encoding="utf-8"))["outcome"]["plan"]
    assert sent["trips"] != ours["trips"]
    assert checked(folder, "moved-check.json")["passed"]
    (finding,) = checked(folder, "spoilt-check.json")["findings"]
    assert (finding["rule_id"], finding["amount"]) == ("night_sets_held", 1)


def test_the_needs_are_figures_with_sources(session):
    """The requirements are figures, each with a formula and the status of its source."""
    folder, _ = session
    figures = json.loads((folder / "needs.json").read_text(encoding="utf-8"))["figures"]
    assert len(figures) > 5
    assert all(figure["formula"] and figure["status"] for figure in figures)


def test_the_refusal_lists_several_faults(session):
    """The faulty request of the session is refused with more than one fault."""
    _, run = session
    refusal = json.loads(run.stdout[run.stdout.index('{\n    "type"') :])
    assert refusal["code"] == "invalid_request"
    assert len(refusal["errors"]) > 1


GUIDES = [
    *ROOT.glob("*.md"),
    *(
        file
        for room in ("api_schema", "docker", "examples", "service", "solver")
        for file in ROOT.glob(f"{room}/**/*.md")
    ),
]
OURS = (".ci", "api_schema", "docker", "examples", "service", "solver", "tests")
NAMED = re.compile(
    r"`((?:[\w.-]+/)+(?:[\w.-]+\.(?:py|md|sh|json|toml|csv|html))?|[\w.-]+\.(?:py|md|sh|toml))`"
)
PLACEHOLDER = re.compile(r"(?:^|[/_])x\.py$")
MADE_LATER = (".tools/", ".venv/", "data/")
"""What the set-up and a running service make."""


def _missing(text: str) -> list[str]:
    """Paths that a text names between backticks and that no file or folder of ours ends in."""
    files = [file for top in OURS for file in (ROOT / top).rglob("*")] + [*ROOT.iterdir()]
    known = [
        f"/{file.relative_to(ROOT).as_posix()}/" for file in files if ".venv" not in file.parts
    ]
    return [
        path
        for path in dict.fromkeys(NAMED.findall(text))
        if not PLACEHOLDER.search(path)
        and path not in MADE_LATER
        and not any(name.endswith(f"/{path.strip('/')}/") for name in known)
    ]


UNQUOTED = re.compile(
    r"^(?:[^'\"\n]|'[^'\n]*'|\"[^\"\n]*\")*?https?://[^\s'\"]*[?*\[]", re.MULTILINE
)
"""An address with a sign outside quotes that shells take for a pattern."""


@pytest.mark.parametrize("guide", GUIDES, ids=lambda file: file.relative_to(ROOT).as_posix())
def test_no_address_in_a_command_is_a_pattern_of_zsh(guide):
    """A question mark outside quotes stops zsh, which looks for a file of that name."""
    for command in blocks("bash", guide.read_text(encoding="utf-8")):
        assert UNQUOTED.search(command) is None


def test_a_pattern_outside_quotes_is_seen():
    """Planted ones are found, and quoted ones are not."""
    assert UNQUOTED.search("curl -s -H 'A: b' http://localhost:8000/v1/plans?limit=3 > a")
    assert not UNQUOTED.search('curl -s -H "A: b" "http://localhost:8000/v1/plans?limit=3" > a')


@pytest.mark.parametrize("guide", GUIDES, ids=lambda file: file.relative_to(ROOT).as_posix())
def test_every_path_that_a_guide_names_is_there(guide):
    """Each path between backticks is, or is the end of, the path of a file or folder of ours."""
    assert _missing(guide.read_text(encoding="utf-8")) == []


def test_a_path_that_is_not_there_is_seen():
    """A planted name of a file or folder is reported; placeholders and real ones are not."""
    text = (
        "`solver/gone.py` `solver/model/` `gone/` `check.py` `gone.md` `solver/checker/rules/x.py`"
    )
    assert _missing(text) == ["solver/gone.py", "gone/", "gone.md"]


def test_the_developers_guide_is_short():
    """DEVELOPERS.md has at most 15 kB; what is about one room stands in the README of that room."""
    assert len((ROOT / "DEVELOPERS.md").read_bytes()) <= 15_000


@pytest.mark.parametrize("guide", GUIDES, ids=lambda file: file.relative_to(ROOT).as_posix())
def test_every_file_that_a_guide_links_exists(guide):
    """Each relative link of a guide leads to a file of the repository."""
    for target in re.findall(r"\]\(([^)#]+)\)", guide.read_text(encoding="utf-8")):
        if "://" not in target and not target.startswith("/"):
            assert (guide.parent / target).exists(), f"{guide.name} links to {target}"


def test_every_rule_stands_in_the_rulebooks_readme():
    """Each rule id of the rulebook is named in the README of its room."""
    text = (ROOT / "solver" / "rulebook" / "README.md").read_text(encoding="utf-8")
    assert [rule.rule_id for rule in RULES if f"`{rule.rule_id}`" not in text] == []


def test_every_file_that_the_models_readme_names_is_there():
    """Each path in its text is a file or room of the model or of the repository."""
    model = ROOT / "solver/model"
    text = (model / "README.md").read_text(encoding="utf-8")
    named = [path for path in re.findall(r"`([\w/]+(?:/|\.py))`", text) if "x.py" not in path]
    assert len(named) > 20
    assert [path for path in named if not any((at / path).exists() for at in (model, ROOT))] == []


def test_the_readme_prints_steps_that_were_tried(tmp_path):
    """Of the answer on what binds it prints steps with a verdict, and counts the others."""
    code = re.search(r"python3 -c '([^']*limits\.json[^']*)'", README)
    assert code is not None
    steps = [
        {"verdict": verdict, "gain": None, "text": f"step {verdict}"}
        for verdict in ("lowers", "not_tried", "none_found")
    ]
    (tmp_path / "limits.json").write_text(json.dumps({"steps": steps, "not_tried": 1}))
    ended = subprocess.run(
        [sys.executable, "-c", code.group(1)],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=True,
        timeout=20,
    )
    assert ended.stdout.splitlines() == [
        "2 steps tried, 1 not tried",
        "lowers None step lowers",
        "none_found None step none_found",
    ]
