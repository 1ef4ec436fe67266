"""A planted import against the order of the rooms turns `lint-imports` red."""

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.structure.sources import PACKAGES, ROOT

AGAINST_THE_ORDER = (
    (
        "solver/model/instance/cargo.py",
        "solver.model.search",
        "Every room of the model has its layer",
    ),
    ("solver/model/rows.py", "solver.model.goals", "Every room of the model has its layer"),
    (
        "solver/checker/ledger/times.py",
        "solver.checker.check",
        "Every room of the checker has its layer",
    ),
    (
        "solver/checker/queries/worn.py",
        "solver.checker.rules",
        "Every room of the checker has its layer",
    ),
    (
        "solver/checker/ledger/meals.py",
        "solver.checker.ledger.replay",
        "Every module of the checker's ledger has its layer",
    ),
    (
        "solver/checker/queries/words.py",
        "solver.checker.queries.telling",
        "Every module of the checker's queries has its layer",
    ),
    ("solver/problem/gear.py", "solver.plan", "Every room of the solver has its layer"),
    (
        "solver/checker/goals.py",
        "solver.model.rows",
        "The checker never reaches the model, the requirements, ortools or highspy",
    ),
    (
        "solver/checker/goals.py",
        "solver.requirements",
        "The checker never reaches the model, the requirements, ortools or highspy",
    ),
)


@pytest.fixture
def copy(tmp_path) -> Path:
    """The packages and their rules, copied to where they may be spoilt."""
    for package in PACKAGES:
        shutil.copytree(
            ROOT / package, tmp_path / package, ignore=shutil.ignore_patterns("__pycache__")
        )
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    return tmp_path


def _broken(folder: Path) -> tuple[int, list[str]]:
    """The exit code of `lint-imports` on a folder, and the contracts that it calls broken."""
    ran = subprocess.run(
        [Path(sys.executable).with_name("lint-imports"), "--no-logo", "--no-cache"],
        cwd=folder,
        env={"PYTHONPATH": str(folder), "NO_COLOR": "1", "COLUMNS": "200"},
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )
    lines = ran.stdout.splitlines()
    ends = " BROKEN"
    return ran.returncode, [line.removesuffix(ends) for line in lines if line.endswith(ends)]


def test_the_copy_without_a_planted_import_is_green(copy):
    """What the planted imports turn red is green before."""
    assert _broken(copy) == (0, [])


@pytest.mark.parametrize(("file", "imported", "contract"), AGAINST_THE_ORDER)
def test_an_import_against_the_order_breaks_its_contract(copy, file, imported, contract):
    """One more import that runs up the layers breaks the contract of that room."""
    spoilt = copy / file
    spoilt.write_text(spoilt.read_text(encoding="utf-8") + f"\nimport {imported}\n")
    code, broken = _broken(copy)
    assert code == 1
    assert contract in broken
