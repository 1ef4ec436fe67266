"""How long files and functions are, package by package."""

import ast
from statistics import median

import pytest

from tests.structure.sources import PACKAGES, functions_of, length_of, our_sources

LONGEST_MEDIAN = 80
LONGEST_FUNCTION = 40
MOST_LONG_PERCENT = 1


def _of(package: str):
    return [s for name, s in our_sources().items() if name.split(".")[0] == package]


@pytest.mark.parametrize("package", PACKAGES)
def test_half_of_the_files_fit_on_a_screen_or_two(package):
    """The median file of a package has at most 80 lines."""
    assert median(source.lines for source in _of(package)) <= LONGEST_MEDIAN


@pytest.mark.parametrize("package", PACKAGES)
def test_few_functions_are_long(package):
    """Under one function in a hundred has a body of more than 40 lines; docstrings do not count."""
    functions = [
        (length_of(function), f"{source.name}.{function.name}")
        for source in _of(package)
        for function in functions_of(source)
    ]
    long = sorted((entry for entry in functions if entry[0] > LONGEST_FUNCTION), reverse=True)
    assert 100 * len(long) < MOST_LONG_PERCENT * max(len(functions), 1), long


def test_a_long_file_says_why():
    """A file of over 300 lines says so in its docstring or is cut."""
    for name, source in our_sources().items():
        if source.lines > 300:
            words = ast.get_docstring(source.tree) or ""
            assert " long" in words or " one file" in words, f"{name} has {source.lines} lines"


def test_a_function_is_measured_without_signature_and_docstring():
    """Of seven lines of which two are signature and three docstring, two count."""
    text = 'def outer(\n    a):\n    """One.\n\n    Two."""\n    b = a\n    return b\n'
    (function,) = ast.parse(text).body
    assert length_of(function) == 2
