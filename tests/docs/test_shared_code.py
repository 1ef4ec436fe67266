"""What the checker shares with the side that it checks is what the documents say."""

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
SHARED = {
    "problem": "the problem with its trips and nights",
    "plan": "the form of a plan",
    "rulebook": "the rulebook",
    "calculators": "the calculators",
    "quantities": "the rounding",
}
"""Rooms that both sides import, each in the words of the documents."""


def _rooms(*rooms: str) -> set[str]:
    """The rooms of the solver that these rooms import, themselves left out."""
    found = set()
    for room in rooms:
        for file in (ROOT / "solver" / room).rglob("*.py"):
            for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
                if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("solver."):
                    found.add(str(node.module).split(".")[1])
    return found - set(rooms)


def test_both_sides_import_these_rooms_and_no_others():
    """Checker and solving side have the named rooms in common, and only those."""
    assert _rooms("checker") & _rooms("model", "requirements") == set(SHARED)


@pytest.mark.parametrize("name", ["README.md", "DEVELOPERS.md", "CHANGELOG.md"])
def test_the_documents_name_all_that_is_shared(name):
    """Each document that speaks of the separate checker names every shared room."""
    text = " ".join((ROOT / name).read_text(encoding="utf-8").split())
    assert [words for words in SHARED.values() if words not in text] == []
