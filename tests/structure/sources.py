"""The modules of the packages as text and syntax: their names, imports and functions."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parents[2]
PACKAGES = ("api_schema", "service", "solver")

Function = ast.FunctionDef | ast.AsyncFunctionDef


@dataclass(frozen=True)
class Source:
    """One module: its dotted name, its file and its syntax tree."""

    name: str
    file: Path
    tree: ast.Module

    @property
    def lines(self) -> int:
        """Lines of the file, blank ones too [1]."""
        return len(self.file.read_text(encoding="utf-8").splitlines())

    @property
    def is_package(self) -> bool:
        """Whether the module is the `__init__` of a folder."""
        return self.file.name == "__init__.py"


def read_sources(root: Path, package: str) -> dict[str, Source]:
    """The modules of a package below a folder, by name."""
    found = {}
    for file in sorted((root / package).rglob("*.py")):
        parts = file.relative_to(root).with_suffix("").parts
        name = ".".join(parts[:-1] if parts[-1] == "__init__" else parts)
        found[name] = Source(name, file, ast.parse(file.read_text(encoding="utf-8")))
    return found


@cache
def our_sources() -> dict[str, Source]:
    """All modules of our packages, by name."""
    return {
        name: source for package in PACKAGES for name, source in read_sources(ROOT, package).items()
    }


def imports_of(source: Source, known: dict[str, Source]) -> set[str]:
    """The known modules that a module imports anywhere: at its top, in functions, for types."""
    found: set[str] = set()
    for node in ast.walk(source.tree):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            base = _base(source, node)
            for alias in node.names:
                inner = f"{base}.{alias.name}"
                found.add(inner if inner in known else base)
    return {name for name in found & known.keys() if name != source.name}


def _base(source: Source, node: ast.ImportFrom) -> str:
    """The module that a `from ... import` names, relative ones made whole."""
    if not node.level:
        return node.module or ""
    parts = source.name.split(".")
    up = node.level - source.is_package
    parts = parts[: len(parts) - up]
    return ".".join([*parts, *([node.module] if node.module else [])])


def functions_of(source: Source) -> Iterator[Function]:
    """Every function of a module, methods and nested ones too."""
    for node in ast.walk(source.tree):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            yield node


def has_logic(source: Source) -> bool:
    """Whether any function of a module does something: its body is more than a docstring."""
    return any(_does_something(function) for function in functions_of(source))


def _does_something(function: Function) -> bool:
    return any(
        not (isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant))
        and not isinstance(node, ast.Pass)
        for node in function.body
    )


def length_of(function: Function) -> int:
    """Lines of a function's body; its signature and docstring are left out [1]."""
    body = function.body
    if isinstance(body[0], ast.Expr) and isinstance(body[0].value, ast.Constant):
        body = body[1:]
    return (body[-1].end_lineno or 0) - body[0].lineno + 1 if body else 0
