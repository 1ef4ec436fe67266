"""Every code of a fault that the service can give, read from its source."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

from service.errors import PROBLEMS
from service.translate.read.wire_faults import _MESSAGES, OWN_CODES

ROOT = Path(__file__).parents[2]
PLACES = ("service", "solver/problem", "api_schema")
CODE = re.compile(r"[a-z]+(?:_[a-z]+)*")
MAKES_A_FAULT = re.compile(
    r"(?:\w*Fault|fault|\w+_fault|_refused|CellError|BadGpxError|RefusedError|EditError)$"
)
"""Names of functions and classes that take the code of a fault as one of their first arguments."""
NAMES_OF_FIELDS = frozenset(
    {"date", "place", "item_id", "person_id", "sled_id", "item", "person", "sled"}
)
"""What such a call may name before the code."""


def fault_codes() -> set[str]:
    """The codes of faults; those of problems, which a comparison repeats in a row, are left out."""
    found = {code for code, _ in _MESSAGES.values()} | set(OWN_CODES)
    for place in PLACES:
        for path in (ROOT / place).rglob("*.py"):
            found.update(_codes(ast.parse(path.read_text(encoding="utf-8"))))
    return found - set(PROBLEMS)


def _codes(tree: ast.AST) -> Iterator[str]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and MAKES_A_FAULT.match(_name(node.func)):
            arguments = [*node.args, *(k.value for k in node.keywords if k.arg == "code")]
            yield from next((codes for one in arguments if (codes := _constants(one))), ())


def _name(function: ast.expr) -> str:
    if isinstance(function, ast.Name):
        return function.id
    return function.attr if isinstance(function, ast.Attribute) else ""


def _constants(node: ast.expr) -> list[str]:
    """The codes that an argument may be."""
    if isinstance(node, ast.IfExp):
        return [*_constants(node.body), *_constants(node.orelse)]
    is_text = isinstance(node, ast.Constant) and isinstance(node.value, str)
    is_code = is_text and CODE.fullmatch(node.value) and node.value not in NAMES_OF_FIELDS
    return [node.value] if is_code else []
