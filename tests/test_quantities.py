"""The integer grid: each rounding goes the way that its name says, at and beside its steps."""

import pytest

from solver.quantities import (
    even_parts,
    fraction_up,
    fuel_mass_nearest,
    share_down,
    share_up,
    units_up,
    whole_down,
)


@pytest.mark.parametrize(
    ("load_g", "cap_g", "fraction"),
    [
        (0, 3, 0),
        (1, 30_000, 1),
        (3, 30_000, 1),
        (4, 30_000, 2),
        (30_000, 30_000, 10_000),
        (0, 0, 0),
    ],
)
def test_a_load_fraction_rounds_up(load_g, cap_g, fraction):
    """A gram past a step of the grid counts as the next step; no load is 0 even on no cap."""
    assert fraction_up(load_g=load_g, cap_g=cap_g) == fraction


def test_a_load_on_no_cap_has_no_fraction():
    """A gram on a cap of zero is refused, because no finite share holds it."""
    with pytest.raises(ZeroDivisionError):
        fraction_up(load_g=1, cap_g=0)


@pytest.mark.parametrize(
    ("amount", "percent", "down", "up"),
    [(99, 50, 49, 50), (100, 50, 50, 50), (101, 50, 50, 51), (0, 110, 0, 0)],
)
def test_shares_of_capacities_round_down_and_of_needs_up(amount, percent, down, up):
    """Half of 101 is 50 of a capacity and 51 of a need; whole shares are the same both ways."""
    assert share_down(amount=amount, percent=percent) == down
    assert share_up(amount=amount, percent=percent) == up


@pytest.mark.parametrize(("amount", "percent"), [(49, 50), (50, 33), (1, 60), (7, 100)])
def test_a_whole_is_the_most_whose_share_fits(amount, percent):
    """The share of the whole is within the amount, and that of one more is not."""
    whole = whole_down(amount=amount, percent=percent)
    assert whole * percent <= amount * 100 < (whole + 1) * percent


@pytest.mark.parametrize(("amount", "units"), [(0, 0), (1, 1), (4, 1), (5, 2), (8, 2), (9, 3)])
def test_units_hold_at_least_the_amount(amount, units):
    """Of units of four, one past a whole number of them takes one more."""
    assert units_up(amount=amount, per_unit=4) == units


@pytest.mark.parametrize(("volume_ml", "mass_g"), [(0, 0), (1000, 700), (2, 1), (1, 1), (5, 4)])
def test_fuel_weighs_its_density_to_the_nearest_gram(volume_ml, mass_g):
    """At 700 g/L, 1 mL is 0.7 g and 2 mL are 1.4 g: both round to 1 g."""
    assert fuel_mass_nearest(volume_ml=volume_ml, density_g_per_l=700) == mass_g


@pytest.mark.parametrize(
    ("total", "largest", "parts"),
    [(0, 5, ()), (5, 5, (5,)), (6, 5, (3, 3)), (11, 5, (4, 4, 3)), (10, 5, (5, 5))],
)
def test_parts_are_few_and_even(total, largest, parts):
    """A total goes into the fewest parts, the bigger first, none more than one above another."""
    assert even_parts(total=total, largest=largest) == parts
