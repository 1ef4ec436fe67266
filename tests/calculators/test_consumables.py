"""Consumables, rounded up to what is sold."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.calculators.consumables import COMMON, consumable_need
from tests.calculators.published_values import misses, rows

BY_NAME = {consumable.name: consumable for consumable in COMMON}


@pytest.mark.parametrize("row", rows("consumable_need"), ids=str)
def test_packs_are_rounded_up(row: dict[str, str]) -> None:
    """Rates times people and days, rounded up to packages, are as worked by hand."""
    assert not misses(
        lambda consumable, persons, days: (
            consumable_need(consumable=BY_NAME[consumable], persons=int(persons), days=days).packs
        ),
        row,
    )


def test_whole_packages_are_carried() -> None:
    """4 packs of 5 dressings of 2 g weigh 40 g, though 18.9 dressings are wanted."""
    need = consumable_need(consumable=BY_NAME["blister dressing"], persons=6, days=21)
    assert need.units == pytest.approx(18.9)
    assert need.mass_g == pytest.approx(40.0)


def test_names_are_told_apart() -> None:
    """No two consumables of the table share a name."""
    assert len(BY_NAME) == len(COMMON)


@given(persons=st.integers(0, 40), days=st.floats(0, 100))
def test_more_people_and_days_never_need_less(persons: int, days: float) -> None:
    """One more person or day never needs fewer packages of anything."""
    for consumable in COMMON:
        here = consumable_need(consumable=consumable, persons=persons, days=days).packs
        people = consumable_need(consumable=consumable, persons=persons + 1, days=days).packs
        longer = consumable_need(consumable=consumable, persons=persons, days=days + 1).packs
        assert here <= min(people, longer)


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"persons": -1}, "persons"),
        ({"days": 121}, "days"),
        ({"consumable": replace(COMMON[0], rate=-1)}, "rate"),
        ({"consumable": replace(COMMON[0], units_per_pack=0)}, "units_per_pack"),
    ],
)
def test_out_of_range_is_refused(change, told) -> None:
    """Negative people, rates and empty packages are refused by name."""
    with pytest.raises(ValueError, match=told):
        consumable_need(**{"consumable": COMMON[0], "persons": 6, "days": 21} | change)
