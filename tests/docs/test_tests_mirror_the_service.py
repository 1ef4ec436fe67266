"""The tests of the service stand in the rooms of the service, and leave no module out."""

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


def imported_by(file: Path) -> set[str]:
    """Every module that a file imports, with "from room import module" as "room.module"."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        match node:
            case ast.Import(names=names):
                found |= {name.name for name in names}
            case ast.ImportFrom(module=str(module), names=names):
                found |= {module, *(f"{module}.{name.name}" for name in names)}
    return found


def has_logic(file: Path) -> bool:
    """Whether a module has a function."""
    functions = (ast.FunctionDef, ast.AsyncFunctionDef)
    tree = ast.parse(file.read_text(encoding="utf-8"))
    return any(isinstance(node, functions) for node in ast.walk(tree))


MODULES = [
    ".".join(file.relative_to(ROOT).with_suffix("").parts)
    for top in ("api_schema", "service")
    for file in sorted((ROOT / top).rglob("*.py"))
    # Migrations are tested together: what they make is compared with the tables.
    if file.name != "__init__.py" and "migrations" not in file.parts and has_logic(file)
]
TESTED = {
    module
    for top in ("api_schema", "service")
    for file in (ROOT / "tests" / top).rglob("test_*.py")
    for module in imported_by(file)
}


@pytest.mark.parametrize("module", MODULES)
def test_a_module_with_logic_has_a_test_that_names_it(module):
    """A test of the service or of the wire imports the module by its name."""
    assert module in TESTED


def test_every_room_of_the_service_has_a_room_of_tests():
    """The folders of tests/service are those of service, and each has tests."""

    def rooms(root: Path) -> set[str]:
        return {
            file.parent.relative_to(root).as_posix()
            for file in root.rglob("__init__.py")
            if "migrations" not in file.parts
        }

    assert rooms(ROOT / "tests" / "service") == rooms(ROOT / "service")
    for room in rooms(ROOT / "service"):
        assert list((ROOT / "tests" / "service" / room).rglob("test_*.py")), room
