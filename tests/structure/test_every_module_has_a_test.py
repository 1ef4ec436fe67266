"""Every module that does something has a test that names it.

A test names a module by importing it, or anything from it, in a file `test_*.py`. A module of a
room of rules is named by its test file, too: `tests/rules/test_x.py` has the cases of the rule `x`,
which are asked of its judge and of the pipeline.
"""

import ast
from functools import cache
from pathlib import Path

import pytest

from tests.structure.sources import (
    PACKAGES,
    ROOT,
    Source,
    has_logic,
    imports_of,
    our_sources,
    read_sources,
)

ROOMS_OF_RULES = ("solver.checker.rules", "solver.checker.request_rules", "solver.model.rules")

HELD = PACKAGES
"""Packages in which every module with logic has its test: all of them."""


@cache
def _tests() -> dict[str, Source]:
    return read_sources(ROOT, "tests")


def named_by(tests: dict[str, Source], known: dict[str, Source]) -> set[str]:
    """The known modules that some test file imports."""
    everything = {**tests, **known}
    files = [source for source in tests.values() if source.file.name.startswith("test_")]
    return {name for source in files for name in imports_of(source, everything)} & known.keys()


def unnamed(known: dict[str, Source], tests: dict[str, Source], room: str) -> list[str]:
    """Modules with logic in a room that no test names."""
    named = named_by(tests, known)
    cases = {name.rpartition(".test_")[2] for name in tests if name.startswith("tests.rules.test_")}
    return [
        name
        for name, source in known.items()
        if (name == room or name.startswith(f"{room}."))
        and has_logic(source)
        and name not in named
        and not (name.rpartition(".")[0] in ROOMS_OF_RULES and name.rpartition(".")[2] in cases)
    ]


@pytest.mark.parametrize("room", HELD)
def test_every_module_with_logic_is_named_by_a_test(room):
    """No module of the package does something that no test file imports."""
    assert any(name == room or name.startswith(f"{room}.") for name in our_sources())
    assert unnamed(our_sources(), _tests(), room) == []


@pytest.mark.parametrize(
    ("ours", "theirs"),
    [
        ("service", "tests/service"),
        ("solver/model", "tests/model"),
        ("solver/checker", "tests/checker"),
    ],
)
def test_the_rooms_of_the_tests_are_the_rooms_of_the_code(ours, theirs):
    """Each room has a room of tests of the same name with a test in it, and there is no other."""
    assert _rooms(ROOT / ours) == _rooms(ROOT / theirs)
    for room in _rooms(ROOT / theirs):
        cases = [*(ROOT / theirs / room).rglob("test_*.py")]
        assert cases or f"{ours}/{room}".replace("/", ".") in ROOMS_OF_RULES, room


def _rooms(folder: Path) -> set[str]:
    """The rooms below a folder; migrations are tested together, by what they make."""
    return {
        file.parent.relative_to(folder).as_posix()
        for file in folder.rglob("__init__.py")
        if "migrations" not in file.parts
    }


def _planted(folder: Path, test_text: str) -> tuple[dict[str, Source], dict[str, Source]]:
    for file, text in (
        ("solver/__init__.py", ""),
        ("solver/plain.py", "X = 1\n"),
        ("solver/busy.py", "def f():\n    return 1\n"),
        ("tests/__init__.py", ""),
        ("tests/test_busy.py", test_text),
    ):
        (folder / file).parent.mkdir(exist_ok=True)
        (folder / file).write_text(text)
    return read_sources(folder, "solver"), read_sources(folder, "tests")


def test_a_module_without_a_test_is_seen(tmp_path):
    """A module with a function that no test imports is missing; one of constants is not."""
    assert unnamed(*_planted(tmp_path, "import ast\n"), "solver") == ["solver.busy"]


def test_a_module_that_a_test_imports_is_not_missing(tmp_path):
    """Importing one of its functions names a module."""
    assert unnamed(*_planted(tmp_path, "from solver.busy import f\n"), "solver") == []


def test_a_function_of_words_alone_is_no_logic():
    """A protocol's method has a docstring and nothing to test."""
    text = 'class P:\n    def f(self):\n        """What it gives."""\n'
    assert not has_logic(Source("p", Path("p.py"), ast.parse(text)))
