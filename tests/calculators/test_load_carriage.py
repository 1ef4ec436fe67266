"""Loads as shares of body mass, against published figures and at each band's limits."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.calculators.load_carriage import (
    hauled_band,
    load_fraction,
    marshall_1950_pack_kg,
    pack_band,
)
from tests.calculators.published_values import misses, rows

FUNCTIONS = [hauled_band, load_fraction, marshall_1950_pack_kg, pack_band]
PUBLISHED = [(function, row) for function in FUNCTIONS for row in rows(function.__name__)]
PACK_BANDS = ["green", "amber", "orange", "red"]
HAULED_BANDS = ["usual", "upper", "above"]


@pytest.mark.parametrize(("function", "row"), PUBLISHED)
def test_model_meets_its_published_figures(function, row) -> None:
    """Each function gives the figures of its file; bands are right at, below and above a limit."""
    assert not misses(function, row)


@given(pack=st.floats(0, 100), body=st.floats(40, 120))
def test_more_load_is_never_a_milder_band(pack: float, body: float) -> None:
    """A heavier pack or sled never has a milder band, and a heavier body never a worse one."""
    band = PACK_BANDS.index(pack_band(pack_kg=pack, body_mass_kg=body))
    assert PACK_BANDS.index(pack_band(pack_kg=pack + 1, body_mass_kg=body)) >= band
    assert PACK_BANDS.index(pack_band(pack_kg=pack, body_mass_kg=body + 1)) <= band
    hauled = HAULED_BANDS.index(hauled_band(pack_kg=pack, sled_kg=20, body_mass_kg=body))
    more = HAULED_BANDS.index(hauled_band(pack_kg=pack, sled_kg=21, body_mass_kg=body))
    assert more >= hauled


@given(body=st.floats(30, 199))
def test_one_third_rule_stays_amber(body: float) -> None:
    """A pack by the one-third rule is amber, and a heavier body's is heavier."""
    pack = marshall_1950_pack_kg(body_mass_kg=body)
    assert pack_band(pack_kg=pack, body_mass_kg=body) == "amber"
    assert marshall_1950_pack_kg(body_mass_kg=body + 1) > pack


@pytest.mark.parametrize(
    ("function", "given_arguments", "told"),
    [
        (load_fraction, {"load_kg": -1, "body_mass_kg": 70}, "load_kg"),
        (load_fraction, {"load_kg": 151, "body_mass_kg": 70}, "load_kg"),
        (load_fraction, {"load_kg": 20, "body_mass_kg": 29}, "body_mass_kg"),
        (marshall_1950_pack_kg, {"body_mass_kg": 201}, "body_mass_kg"),
        (pack_band, {"pack_kg": 20, "body_mass_kg": 0}, "body_mass_kg"),
        (pack_band, {"pack_kg": 25_000, "body_mass_kg": 75}, "25000 kg was given"),
        (hauled_band, {"pack_kg": -1, "sled_kg": 30, "body_mass_kg": 75}, "pack_kg"),
        (hauled_band, {"pack_kg": 20, "sled_kg": 151, "body_mass_kg": 75}, "sled_kg"),
        (hauled_band, {"pack_kg": 100, "sled_kg": 100, "body_mass_kg": 75}, "load_kg"),
    ],
)
def test_model_refuses_what_is_out_of_range(function, given_arguments, told) -> None:
    """Each function refuses loads and bodies outside the range that its docstring names."""
    with pytest.raises(ValueError, match=told):
        function(**given_arguments)
