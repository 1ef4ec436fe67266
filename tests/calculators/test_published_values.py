"""The files of published figures themselves: complete, sourced, and read as written."""

from __future__ import annotations

import inspect

import pytest

from tests.calculators import published_values
from tests.docs.calculator_functions import public_functions

FILES = sorted(path.stem for path in published_values.FOLDER.glob("*.csv"))
FUNCTIONS = {function.__name__: function for function in public_functions()}
# These give records or sentences, which no cell can hold; their own tests read them.
GIVE_NO_FIGURE = {"fuel_chain_steps", "generic_food", "generic_foods"}


@pytest.mark.parametrize("name", FILES)
def test_file_names_its_source_status_and_tolerance(name: str) -> None:
    """Every file of published figures says where they are from, how sure, and how exact."""
    said = published_values.comments(name)
    missing = [word for word in ("Source", "Status", "Tolerance") if word not in said]
    assert not missing


@pytest.mark.parametrize("name", FILES)
def test_columns_are_the_functions_arguments(name: str) -> None:
    """Every file belongs to a public calculator and its columns are that calculator's arguments."""
    allowed = set(inspect.signature(FUNCTIONS[name]).parameters)
    for row in published_values.rows(name):
        assert set(row) - published_values.NOT_ARGUMENTS <= allowed
        assert {"expected", "tolerance"} <= set(row)


def test_every_calculator_has_published_figures() -> None:
    """No public calculator goes without a file of published figures."""
    assert sorted(set(FUNCTIONS) - GIVE_NO_FIGURE - set(FILES)) == []


def test_a_wrong_figure_is_seen() -> None:
    """A result outside the tolerance is reported, one at its edge is not."""
    row = {"value": "2", "expected": "5", "tolerance": "1"}
    assert published_values.misses(lambda value: value, row) != ""
    assert published_values.misses(lambda value: value + 2, row) == ""


def test_a_wrong_name_is_seen() -> None:
    """A result that is another name than the published one is reported."""
    row = {"value": "2", "expected": "green", "tolerance": "exact"}
    assert published_values.misses(lambda value: "red", row) != ""
    assert published_values.misses(lambda value: "green", row) == ""


def test_cells_are_read_as_numbers_lists_and_names() -> None:
    """A cell is a number, a list where it has semicolons, or a name; an empty one is left out."""
    row = {"a": "1.5", "b": "1;2", "c": "snow", "d": "", "expected": "0", "tolerance": "0"}
    assert published_values.arguments(row) == {"a": 1.5, "b": [1.0, 2.0], "c": "snow"}
