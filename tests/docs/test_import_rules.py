"""Tests of the rules that say which libraries a room may use, and that every room is listed."""

import ast
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
OURS = ("api_schema", "service", "solver")

# What each room may import from outside the standard library; the service may use anything.
LIBRARIES = {
    "api_schema": {"pydantic", "pydantic_core"},
    "solver": set(),
    "solver/calculators": {"numpy"},
    "solver/outlook": {"numpy"},
    "solver/model": {"highspy", "numpy", "ortools"},
}


def imported_libraries(file: Path) -> Iterator[str]:
    """Top-level names of the third-party libraries that a file imports, anywhere in it."""
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        match node:
            case ast.Import(names=names):
                found = [name.name for name in names]
            case ast.ImportFrom(module=str(module), level=0):
                found = [module]
            case _:
                continue
        for name in found:
            top = name.partition(".")[0]
            if top not in sys.stdlib_module_names and top not in OURS:
                yield top


def room_of(file: Path) -> str:
    """Longest listed folder that holds the file."""
    folders = [
        folder.relative_to(ROOT).as_posix()
        for folder in file.parents[:-1]
        if folder != ROOT and folder.is_relative_to(ROOT)
    ]
    return next(folder for folder in folders if folder in LIBRARIES)


LIBRARY_FILES = [
    file for top in ("api_schema", "solver") for file in sorted(ROOT.glob(f"{top}/**/*.py"))
]


@pytest.mark.parametrize("file", LIBRARY_FILES, ids=lambda file: file.relative_to(ROOT).as_posix())
def test_a_library_file_imports_only_what_its_room_allows(file):
    """A file of the libraries imports nothing from outside but what its room is allowed."""
    assert set(imported_libraries(file)) <= LIBRARIES[room_of(file)]


def test_the_reader_of_imports_sees_nested_and_dotted_ones(tmp_path):
    """An import is seen inside a function, dotted, and by from; ours and Python's are left out."""
    file = tmp_path / "sample.py"
    file.write_text(
        "import os\nimport solver.plan\n"
        "def late():\n    import ortools.sat\n    from numpy.linalg import norm\n"
        "    from . import x\n"
    )
    assert sorted(imported_libraries(file)) == ["numpy", "ortools"]


def test_every_package_is_built_typed_and_linted():
    """The packages at the top are the same in the wheel, in mypy and in the import rules."""
    here = {file.parent.name for file in ROOT.glob("*/__init__.py")} - {"tests"}
    told = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    tool = told["tool"]
    assert here == set(OURS)
    assert set(tool["hatch"]["build"]["targets"]["wheel"]["packages"]) == here
    assert set(tool["mypy"]["packages"]) == here
    assert set(tool["importlinter"]["root_packages"]) == here


@pytest.mark.parametrize(
    ("contract", "key", "module"),
    [
        ("The web process never solves", "source_modules", "service.app"),
        ("The web process never solves", "forbidden_modules", "solver.pipeline"),
        (
            "The checker never reaches the model, the requirements, ortools or highspy",
            "forbidden_modules",
            "solver.pipeline",
        ),
        ("Only solver.model imports ortools and highspy", "source_modules", "solver.pipeline"),
    ],
)
def test_a_contract_names_a_module_as_soon_as_it_exists(contract, key, module):
    """A contract cannot name a module before it exists, and names it from then on."""
    told = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    contracts = {one["name"]: one for one in told["tool"]["importlinter"]["contracts"]}
    exists = (ROOT / (module.replace(".", "/") + ".py")).exists()
    assert (module in contracts[contract][key]) == exists
