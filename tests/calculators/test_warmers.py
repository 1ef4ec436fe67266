"""Warmers against common practice."""

from __future__ import annotations

import pytest

from solver.calculators.warmers import hand_warmer_pairs, insole_warmer_pairs
from tests.calculators.published_values import misses, rows


@pytest.mark.parametrize("row", rows("hand_warmer_pairs"), ids=str)
def test_hand_warmers_are_one_to_four(row: dict[str, str]) -> None:
    """One pair for each of the coldest days, never more than four pairs for a trip."""
    assert not misses(hand_warmer_pairs, row)


@pytest.mark.parametrize("row", rows("insole_warmer_pairs"), ids=str)
def test_insole_warmers_are_one_or_two(row: dict[str, str]) -> None:
    """One pair for the summit day, two where it is extremely cold."""
    assert not misses(insole_warmer_pairs, row)


@pytest.mark.parametrize(
    ("function", "arguments"),
    [
        (hand_warmer_pairs, {"severe_days": -1}),
        (hand_warmer_pairs, {"severe_days": 121}),
        (insole_warmer_pairs, {"summit_felt_temperature_c": 11}),
        (insole_warmer_pairs, {"summit_felt_temperature_c": float("nan")}),
    ],
)
def test_out_of_range_is_refused(function, arguments) -> None:
    """Days and temperatures of no trip are refused by name."""
    with pytest.raises(ValueError, match=next(iter(arguments))):
        function(**arguments)
