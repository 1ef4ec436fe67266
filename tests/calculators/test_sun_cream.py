"""Sun cream against the test dose and common practice."""

from __future__ import annotations

import pytest

from solver.calculators.sun_cream import (
    FACE_AND_NECK_SHARE,
    FACE_NECK_AND_HANDS_SHARE,
    full_dose_g,
    sun_cream_g,
    ultraviolet_factor,
)
from tests.calculators.published_values import misses, rows


@pytest.mark.parametrize("row", rows("full_dose_g"), ids=str)
def test_full_dose_meets_the_shares(row: dict[str, str]) -> None:
    """Face and neck take 1.8 g at the test dose, with hands 3.2 g."""
    assert not misses(full_dose_g, row)


@pytest.mark.parametrize("row", rows("sun_cream_g"), ids=str)
def test_sun_cream_meets_common_practice(row: dict[str, str]) -> None:
    """The defaults give about 3 oz for 24 days, and full doses the computed span for 21."""
    assert not misses(sun_cream_g, row)


def test_defaults_are_as_worked_by_hand() -> None:
    """Four half doses on a twentieth of 1.8 m² are 3.6 g a day, 86.4 g for 24 days."""
    assert sun_cream_g(days=24) == pytest.approx(86.4)


@pytest.mark.parametrize(
    ("share", "grams"), [(FACE_AND_NECK_SHARE, 1.8), (FACE_NECK_AND_HANDS_SHARE, 3.24)]
)
def test_named_shares_give_their_doses(share: float, grams: float) -> None:
    """The named shares of 1.8 m² take 1.80 and 3.24 g at the test dose."""
    assert full_dose_g(body_surface_m2=1.8, exposed_share=share) == pytest.approx(grams)


@pytest.mark.parametrize("row", rows("ultraviolet_factor"), ids=str)
def test_ultraviolet_grows_by_four_percent(row: dict[str, str]) -> None:
    """Ultraviolet light is 4 % stronger for each 300 m."""
    assert not misses(ultraviolet_factor, row)


@pytest.mark.parametrize(
    ("function", "arguments", "told"),
    [
        (full_dose_g, {"body_surface_m2": 0.9, "exposed_share": 0.05}, "body_surface_m2"),
        (full_dose_g, {"body_surface_m2": 1.8, "exposed_share": 5}, "exposed_share"),
        (sun_cream_g, {"days": -1}, "days"),
        (sun_cream_g, {"days": 10, "applications_per_day": 0}, "applications_per_day"),
        (sun_cream_g, {"days": 10, "dose_share": 0.1}, "dose_share"),
        (ultraviolet_factor, {"height_gain_m": -1}, "height_gain_m"),
    ],
)
def test_out_of_range_is_refused(function, arguments, told) -> None:
    """Shares in percent and doses that protect nobody are refused by name."""
    with pytest.raises(ValueError, match=told):
        function(**arguments)
