"""mypy sees a misspelt or wrong field wherever an answer of the wire is built."""

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
BUILT = """
from api_schema.check_answer import PeakAnswer
from api_schema.common_answer import CautionAnswer

CautionAnswer(caution_id="a", text="b")
PeakAnswer(
    load_fraction=0.5, person_id="a", day=1, date=None, step=1, from_="x", to="y", binding="pack"
)
"""


@pytest.fixture(scope="module")
def judged(tmp_path_factory) -> dict[str, str]:
    """What mypy says of each of some lines, by what is wrong with it."""
    lines = {
        "right": BUILT,
        "misspelt": BUILT.replace("text=", "txt="),
        "another type": BUILT.replace('text="b"', "text=1"),
        "missing": BUILT.replace(', text="b"', ""),
        "no such choice": BUILT.replace('binding="pack"', 'binding="back"'),
        "misspelt behind an alias": BUILT.replace("from_=", "form_="),
    }
    folder = tmp_path_factory.mktemp("typed")
    for name, text in lines.items():
        (folder / f"{name.replace(' ', '_')}.py").write_text(text, encoding="utf-8")
    told = subprocess.run(
        [
            sys.executable,
            "-m",
            "mypy",
            "--config-file",
            "pyproject.toml",
            *map(str, folder.iterdir()),
        ],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    ).stdout
    return {
        name: [s for s in told.splitlines() if f"{name.replace(' ', '_')}.py" in s]
        for name in lines
    }


def test_an_answer_that_is_right_passes(judged):
    """Mypy has nothing against fields as the model has them, by name for those with an alias."""
    assert judged["right"] == []


@pytest.mark.parametrize(
    ("name", "code"),
    [
        ("misspelt", "call-arg"),
        ("another type", "arg-type"),
        ("missing", "call-arg"),
        ("no such choice", "arg-type"),
        ("misspelt behind an alias", "call-arg"),
    ],
)
def test_an_answer_that_is_wrong_is_a_fault_of_mypy(judged, name, code):
    """Each kind of mistake is told with its code."""
    assert any(f"[{code}]" in line for line in judged[name]), judged[name]
