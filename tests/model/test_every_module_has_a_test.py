"""The tests of the model stand in its rooms, and every module of it is named by one."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
MODULES = [
    file.relative_to(ROOT)
    for file in sorted((ROOT / "solver/model").rglob("*.py"))
    if file.name != "__init__.py"
]


def _imported() -> set[str]:
    """Every module that a test of the model imports, as itself or for something in it."""
    found = set()
    for file in (ROOT / "tests").rglob("test_*.py"):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ImportFrom) and node.module:
                found.add(node.module)
                found |= {f"{node.module}.{name.name}" for name in node.names}
    return found


IMPORTED = _imported()


@pytest.mark.parametrize("file", MODULES, ids=Path.as_posix)
def test_a_test_names_the_module(file: Path) -> None:
    """A test imports the module, or it is a rule's and the rule's cases are put to the pipeline."""
    cases = ROOT / "tests/rules" / f"test_{file.stem}.py"
    is_rule = file.parent.name == "rules" and cases.exists()
    assert is_rule or ".".join(file.with_suffix("").parts) in IMPORTED


def test_the_rooms_of_the_tests_are_the_rooms_of_the_model() -> None:
    """Every room of the model has a room of tests, and there is no other."""
    ours, theirs = (
        {file.parent.name for file in (ROOT / folder).glob("*/__init__.py")}
        for folder in ("solver/model", "tests/model")
    )
    assert ours == theirs
