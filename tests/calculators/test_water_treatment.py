"""Water treatment against the agencies' advice."""

from __future__ import annotations

import pytest

from solver.calculators.water_treatment import boil_minutes, treatment_doses
from tests.calculators.published_values import misses, rows


@pytest.mark.parametrize("row", rows("boil_minutes"), ids=str)
def test_boil_minutes_meet_the_agencies_table(row: dict[str, str]) -> None:
    """Each agency's time changes above the height that its advice names."""
    assert not misses(boil_minutes, row)


@pytest.mark.parametrize("row", rows("treatment_doses"), ids=str)
def test_doses_are_bought_in_packs(row: dict[str, str]) -> None:
    """Half a litre over a pack's worth buys another pack."""
    assert not misses(lambda **given: treatment_doses(**given).packs, row)


def test_doses_are_counted_before_packs() -> None:
    """30.5 litres need 31 doses, in 2 packs of 30."""
    treatment = treatment_doses(untreated_l=30.5)
    assert (treatment.doses, treatment.packs) == (31, 2)


@pytest.mark.parametrize(
    ("function", "arguments", "told"),
    [
        (boil_minutes, {"geometric_height_m": 9001}, "geometric_height_m"),
        (boil_minutes, {"geometric_height_m": 100, "agency": "club"}, "agency"),
        (treatment_doses, {"untreated_l": -1}, "untreated_l"),
        (treatment_doses, {"untreated_l": 1, "l_per_dose": 0}, "l_per_dose"),
        (treatment_doses, {"untreated_l": 1, "doses_per_pack": 0}, "doses_per_pack"),
    ],
)
def test_out_of_range_is_refused(function, arguments, told) -> None:
    """Unknown agencies and doses of nothing are refused by name."""
    with pytest.raises(ValueError, match=told):
        function(**arguments)
