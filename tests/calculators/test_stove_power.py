"""Power of stoves and hours of melting against single tests and arithmetic."""

from __future__ import annotations

import pytest

from solver.calculators.stove_power import melting_hours, pot_power_w
from tests.calculators.published_values import misses, rows

PUBLISHED = [(f, row) for f in (melting_hours, pot_power_w) for row in rows(f.__name__)]


@pytest.mark.parametrize(("function", "row"), PUBLISHED)
def test_model_meets_its_published_figures(function, row) -> None:
    """Each model gives what its source has within the tolerance named there."""
    assert not misses(function, row)


def test_wind_slows_every_stove() -> None:
    """A stove in the open heats slower than behind a wall, and there slower than in still air."""
    for stove in ("liquid", "canister"):
        still, sheltered, windy = (
            pot_power_w(stove=stove, shelter=shelter) for shelter in ("still", "sheltered", "open")
        )
        assert windy < sheltered < still


@pytest.mark.parametrize("change", [{"stove": "wood"}, {"shelter": "hut"}])
def test_unknown_names_are_refused(change) -> None:
    """Stoves and shelters beyond those listed are refused by name."""
    with pytest.raises(ValueError, match="allowed is one of"):
        pot_power_w(**{"stove": "liquid", "shelter": "still"} | change)
