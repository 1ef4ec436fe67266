"""Waste against the published medians and common practice."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.calculators.toilet_and_waste import (
    PLANNED_G_PER_PERSON_DAY,
    containers_by_uses,
    containers_by_volume,
    measured_faeces_g,
    toilet_events,
    toilet_paper_g,
    waste_need,
)
from tests.calculators.published_values import misses, rows


@pytest.mark.parametrize("row", rows("measured_faeces_g"), ids=str)
def test_faeces_meet_the_review(row: dict[str, str]) -> None:
    """Four people make 10.75 kg in 21 days, twice that on a diet rich in fibre."""
    assert not misses(measured_faeces_g, row)


@pytest.mark.parametrize("row", rows("toilet_events"), ids=str)
def test_events_meet_the_review(row: dict[str, str]) -> None:
    """Four people need a bag 101 times in 21 days."""
    assert not misses(toilet_events, row)


@pytest.mark.parametrize("row", rows("toilet_paper_g"), ids=str)
def test_paper_is_by_person_day(row: dict[str, str]) -> None:
    """Paper is the daily amount times the person-days."""
    assert not misses(toilet_paper_g, row)


@pytest.mark.parametrize("row", rows("containers_by_volume"), ids=str)
def test_containers_by_volume_are_counted_up(row: dict[str, str]) -> None:
    """An 8 L container serves 27 to 40 person-days, and one is always needed."""
    assert not misses(containers_by_volume, row)


@pytest.mark.parametrize("row", rows("containers_by_uses"), ids=str)
def test_containers_by_uses_are_counted_up(row: dict[str, str]) -> None:
    """The uses that a maker allows, at 1.2 a day, are rounded up to containers."""
    assert not misses(containers_by_uses, row)


@pytest.mark.parametrize("row", rows("waste_need"), ids=str)
def test_all_waste_is_carried_down(row: dict[str, str]) -> None:
    """Waste, liners, paper and containers add up to what comes down."""
    assert not misses(lambda **given: waste_need(**given).carried_down_g, row)


def test_the_plan_lies_above_the_measured_median() -> None:
    """The planned 150 g lies above the measured 128 g and below the double of a rich diet."""
    measured = measured_faeces_g(person_days=1)
    assert measured < PLANNED_G_PER_PERSON_DAY < 2 * measured


@given(person_days=st.floats(0, 5000))
def test_more_days_never_need_less(person_days: float) -> None:
    """One more person-day never needs fewer bags, containers or grams."""
    here, more = waste_need(person_days=person_days), waste_need(person_days=person_days + 1)
    assert here.bags <= more.bags
    assert here.containers <= more.containers
    assert here.carried_down_g < more.carried_down_g


@pytest.mark.parametrize(
    ("function", "arguments", "told"),
    [
        (measured_faeces_g, {"person_days": -1}, "person_days"),
        (measured_faeces_g, {"person_days": 1, "diet_factor": 3}, "diet_factor"),
        (toilet_events, {"person_days": float("nan")}, "person_days"),
        (toilet_paper_g, {"person_days": 1, "g_per_person_day": 51}, "g_per_person_day"),
        (containers_by_volume, {"person_days": 1, "container_l": 0}, "container_l"),
        (
            containers_by_volume,
            {"person_days": 1, "container_l": 8, "l_per_person_day": 0},
            "l_per_person_day",
        ),
        (containers_by_uses, {"person_days": 1, "uses_per_container": 0}, "uses_per_container"),
        (waste_need, {"person_days": 1, "container_l": 61}, "container_l"),
    ],
)
def test_out_of_range_is_refused(function, arguments, told) -> None:
    """Negative days and containers of no volume are refused by name."""
    with pytest.raises(ValueError, match=told):
        function(**arguments)
