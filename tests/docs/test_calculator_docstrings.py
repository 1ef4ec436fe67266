"""Every calculator's docstring says its unit, range, source, departures and outside check."""

from __future__ import annotations

import inspect
import re
from collections.abc import Callable
from typing import Any

import pytest

from tests.docs.calculator_functions import public_functions

SECTIONS = ("Range:", "Source:", "Departs:", "Independent check:")
GOOD = """Mass of a thing [g].

Range: 0-1 g.

Source: a book. Read.

Departs: nowhere.

Independent check: No independent check was found.
"""


def faults(docstring: str | None) -> list[str]:
    """What a calculator's docstring fails to say, in words; empty where it says all."""
    lines = inspect.cleandoc(docstring or "").splitlines() or [""]
    told = []
    if not re.search(r"\[[^\[\]]+\]", lines[0]):
        told.append("the first line has no unit in brackets")
    for section in SECTIONS:
        texts = [line.removeprefix(section).strip() for line in lines if line.startswith(section)]
        if not any(texts):
            told.append(f"no section {section}")
    return told


@pytest.mark.parametrize("function", public_functions(), ids=lambda function: function.__name__)
def test_docstring_says_what_a_calculator_must(function: Callable[..., Any]) -> None:
    """Each calculator names its unit, range, source, departures and independent check."""
    assert faults(function.__doc__) == []


@pytest.mark.parametrize("function", public_functions(), ids=lambda function: function.__name__)
def test_physical_arguments_are_keyword_only(function: Callable[..., Any]) -> None:
    """No argument of a calculator can be given by position, so none can be swapped."""
    kinds = {argument.kind for argument in inspect.signature(function).parameters.values()}
    assert kinds <= {inspect.Parameter.KEYWORD_ONLY}


def test_the_calculators_are_found() -> None:
    """The walk finds calculators of several modules, so the tests above are about something."""
    modules = {function.__module__ for function in public_functions()}
    assert {"solver.calculators.resting_energy", "solver.calculators.generic_foods"} <= modules


def test_a_whole_docstring_passes() -> None:
    """A docstring that says everything has no fault."""
    assert faults(GOOD) == []


@pytest.mark.parametrize("section", SECTIONS)
def test_a_missing_or_empty_section_is_seen(section: str) -> None:
    """A docstring without a section, or with nothing after its name, is a fault."""
    without = "\n".join(line for line in GOOD.splitlines() if not line.startswith(section))
    assert faults(without) == [f"no section {section}"]
    emptied = re.sub(rf"^{section}.*$", section, GOOD, flags=re.MULTILINE)
    assert faults(emptied) == [f"no section {section}"]


@pytest.mark.parametrize("docstring", [None, "", GOOD.replace("[g]", "in grams")])
def test_a_missing_unit_is_seen(docstring: str | None) -> None:
    """A docstring that is missing or whose first line has no unit in brackets is a fault."""
    assert "the first line has no unit in brackets" in faults(docstring)
