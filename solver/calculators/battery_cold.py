"""What cold leaves of a battery's capacity."""

from __future__ import annotations

from solver.calculators._ranges import require_within
from solver.calculators._rounding import whole_up


def battery_capacity_share(*, cell_temperature_c: float) -> float:
    """Share of its rated capacity that a cell gives at its own temperature [-].

    Range: -30 to 60 degC, refused outside. Above 27 degC the share is held at 1. From -18 to
    -30 degC the line is carried on below the colder of its two points.

    Source: a straight line through two published points, 1 at 27 degC and about one half at
    -18 degC, from BU-502, Discharging at high and low temperatures, an educational site on
    batteries; status: read, with the remark there that it varies by kind of cell.

    Departs: cells differ: lithium primary cells keep most of their capacity at -20 degC, alkaline
    cells 20 to 30 % (memory-unverified). The temperature is the cell's own: in an inside pocket it
    is near 20 degC whatever the air has.

    Independent check: none was found; 0.70, 0.59, 0.48, 0.37 at 0, -10, -20, -30 degC guard against
    typing slips.
    """
    require_within("cell_temperature_c", cell_temperature_c, -30.0, 60.0, "degC")
    return min(1.0, 0.5 + 0.5 * (cell_temperature_c + 18.0) / 45.0)


def batteries_needed(
    *, energy_wh: float, battery_wh: float, cell_temperature_c: float, spare_share: float = 0.25
) -> int:
    """Batteries or power banks to take so that the energy is there in the cold [count].

    Range: energy 0 to 5000 Wh, battery 0.5 to 500 Wh, spare share 0 to 1, cell temperature as
    ``battery_capacity_share``; refused outside.

    Source: the energy with a spare share, divided by what a battery gives at its temperature,
    rounded up; the spare quarter is common practice, no source.

    Departs: not a published model; ageing and the losses of a converter are in the spare share.

    Independent check: none was found; it is arithmetic.
    """
    require_within("energy_wh", energy_wh, 0.0, 5000.0, "Wh")
    require_within("battery_wh", battery_wh, 0.5, 500.0, "Wh")
    require_within("spare_share", spare_share, 0.0, 1.0, "of the energy")
    given = battery_wh * battery_capacity_share(cell_temperature_c=cell_temperature_c)
    return whole_up(energy_wh * (1.0 + spare_share) / given)


def may_charge(*, cell_temperature_c: float) -> bool:
    """Whether a lithium-ion cell may be charged at its own temperature [degC].

    Range: -60 to 60 degC, refused outside.

    Source: lithium-ion cells are not charged below 0 degC; status: memory-unverified.

    Departs: does not. The upper limit, 45 degC, is memory-unverified too.

    Independent check: none was found.
    """
    require_within("cell_temperature_c", cell_temperature_c, -60.0, 60.0, "degC")
    return 0.0 <= cell_temperature_c <= 45.0
