"""The helpers of the calculators: refusing what is out of range, rounding needs up."""

import pytest

from solver.calculators._ranges import require_choice, require_within
from solver.calculators._rounding import whole_up


@pytest.mark.parametrize("value", [0.0, 2.5, 5.0])
def test_a_range_holds_both_of_its_ends(value):
    """A value at either end of a range, or between them, is let pass."""
    require_within("depth", value, 0, 5, "m")


@pytest.mark.parametrize("value", [-0.001, 5.001, float("nan"), float("inf")])
def test_a_value_out_of_range_is_refused_with_the_range(value):
    """Below, above, not a number: the error names the quantity, the range and what helps."""
    with pytest.raises(ValueError, match=r"^depth: .* m was given; allowed is 0 to 5 m\. Dig\.$"):
        require_within("depth", value, 0, 5, "m", "Dig.")


def test_a_choice_is_looked_up_or_refused_with_all_names():
    """A known name gives its entry; an unknown one gives all names in order."""
    choices = {"soft": 1.5, "firm": 1.0}
    assert require_choice("snow", "soft", choices) == 1.5
    with pytest.raises(ValueError, match="snow: 'deep' was given; allowed is one of: firm, soft"):
        require_choice("snow", "deep", choices)


@pytest.mark.parametrize(
    ("value", "whole"),
    [(0.0, 0), (3 * 0.1 / 0.3, 1), (1.0001, 2), (2.0, 2), (1_000_000 * 1.1, 1_100_000)],
)
def test_a_need_met_exactly_buys_nothing_more(value, whole):
    """The last digits of a float are forgiven; anything more is one whole thing more."""
    assert whole_up(value) == whole
