"""The integer grid of the solver, grams and millilitres, and every rounding on it.

Needs round up and capacities round down, so that a rounded plan is never easier than the
real one. Each function says its direction in its name.
"""

from __future__ import annotations

FRACTION_GRID = 10_000
"""Load fractions are whole 1/10,000 of a cap; on a cap of 50 kg one step is 5 g."""


def fraction_up(*, load_g: int, cap_g: int) -> int:
    """Load as a share of its cap, rounded up [1/10,000].

    A cap of zero takes only a load of zero; anything else raises ZeroDivisionError, since
    such a load has no finite fraction and is a fault that is reported elsewhere.
    """
    if load_g == 0:
        return 0
    return -(-load_g * FRACTION_GRID // cap_g)


def share_down(*, amount: int, percent: int) -> int:
    """A percentage of a capacity, rounded down [unit of the amount]."""
    return amount * percent // 100


def share_up(*, amount: int, percent: int) -> int:
    """A percentage of a need, rounded up [unit of the amount]."""
    return -(-amount * percent // 100)


def whole_down(*, amount: int, percent: int) -> int:
    """The most of which a share is no more than an amount, rounded down."""
    return amount * 100 // percent


def units_up(*, amount: int, per_unit: int) -> int:
    """Whole units that hold at least an amount [1]."""
    return -(-amount // per_unit)


def fuel_mass_nearest(*, volume_ml: int, density_g_per_l: int) -> int:
    """Mass of liquid fuel, to the nearest gram [g].

    The ledger takes what was burnt as the difference of two such masses, so the grams of a
    container always add up exactly whatever the rounding.
    """
    return (volume_ml * density_g_per_l + 500) // 1000


def even_parts(*, total: int, largest: int) -> tuple[int, ...]:
    """Split a whole amount into the fewest parts of at most `largest`, as equal as can be.

    The bigger parts come first; an amount of zero has no parts.
    """
    if total == 0:
        return ()
    count = units_up(amount=total, per_unit=largest)
    base, rest = divmod(total, count)
    return tuple(base + 1 if index < rest else base for index in range(count))
