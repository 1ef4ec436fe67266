"""Body surface against its worked value."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.calculators.body_surface import dubois_1916_m2
from tests.calculators.published_values import misses, rows


@pytest.mark.parametrize("row", rows("dubois_1916_m2"), ids=str)
def test_dubois_meets_the_worked_value(row: dict[str, str]) -> None:
    """A person of 75 kg and 178 cm has 1.927 m² (typing slips only)."""
    assert not misses(dubois_1916_m2, row)


@given(mass_kg=st.floats(30, 199), height_cm=st.floats(120, 219))
def test_larger_people_have_more_surface(mass_kg: float, height_cm: float) -> None:
    """One more kilogram or centimetre is more surface."""
    here = dubois_1916_m2(body_mass_kg=mass_kg, height_cm=height_cm)
    assert dubois_1916_m2(body_mass_kg=mass_kg + 1, height_cm=height_cm) > here
    assert dubois_1916_m2(body_mass_kg=mass_kg, height_cm=height_cm + 1) > here


@pytest.mark.parametrize(("mass_kg", "height_cm"), [(29, 178), (201, 178), (75, 1.78), (75, 221)])
def test_out_of_range_is_refused(mass_kg: float, height_cm: float) -> None:
    """Masses of no adult, and heights in metres, are refused."""
    with pytest.raises(ValueError, match=r"body_mass_kg|height_cm"):
        dubois_1916_m2(body_mass_kg=mass_kg, height_cm=height_cm)
