"""Chemical warmers for hands and feet."""

from __future__ import annotations

from solver.calculators._ranges import require_within
from solver.calculators._rounding import whole_up

HAND_PAIRS_AT_MOST = 4
INSOLE_PAIRS_AT_MOST = 2


def hand_warmer_pairs(*, severe_days: float) -> int:
    """Pairs of hand warmers for one person and the whole trip [count].

    Range: 0 to 120 days below about -22 degC with the wind counted, refused outside. The result is
    clamped to 1 to 4 pairs.

    Source: common practice, no source: one pair for each of the coldest days, at most 4 pairs for a
    trip. They are for an emergency and for the summit day and take the place of no mitten.

    Departs: not a published model.

    Independent check: none was found.
    """
    require_within("severe_days", severe_days, 0.0, 120.0, "days")
    return max(1, min(HAND_PAIRS_AT_MOST, whole_up(severe_days)))


def insole_warmer_pairs(*, summit_felt_temperature_c: float) -> int:
    """Pairs of insole warmers for one person and the whole trip [count].

    Range: -80 to 10 degC felt on the summit day, refused outside. The result is 1 or 2.

    Source: common practice, no source: one pair for the summit day, a second one for another
    attempt where the summit day feels like -35 degC or colder.

    Departs: not a published model. Boots without room for them are colder with them.

    Independent check: none was found.
    """
    require_within("summit_felt_temperature_c", summit_felt_temperature_c, -80.0, 10.0, "degC")
    return INSOLE_PAIRS_AT_MOST if summit_felt_temperature_c <= -35.0 else 1
