"""Compares the energy of a ration with the need, by height and with what is really eaten there."""

from __future__ import annotations

from typing import Literal

from solver.calculators._ranges import require_choice, require_within

ElevationBand = Literal["high", "low", "mid"]
RationKind = Literal["high", "low", "mid", "storm"]
Bound = Literal["high", "low"]

_TARGET_KCAL = {
    "low": {"low": 4000.0, "high": 4500.0},
    "mid": {"low": 3700.0, "high": 4000.0},
    "high": {"low": 3000.0, "high": 3500.0},
    "storm": {"low": 2800.0, "high": 3000.0},
}


def elevation_band(*, height_m: float, mid_above_m: float, high_above_m: float) -> ElevationBand:
    """Height band of a night for rations: low, mid or high [name].

    Range: height -430 to 8849 m, mid_above_m not above high_above_m. Outside it: ValueError. A
    night exactly at a limit belongs to the lower band.

    Source: common practice, no source. A usual pair of limits is 2500 m and 4267 m (14 000 ft,
    above which fat and protein are less well borne: US Army FM 3-97.61, chapter 2, read).

    Departs: both limits are arguments, since texts disagree.

    Independent check: No independent check was found.
    """
    require_within("height_m", height_m, -430, 8849, "m")
    require_within("mid_above_m", mid_above_m, 0, 8849, "m")
    require_within("high_above_m", high_above_m, mid_above_m, 8849, "m")
    if height_m > high_above_m:
        return "high"
    if height_m > mid_above_m:
        return "mid"
    return "low"


def ration_target_kcal(*, ration: RationKind, bound: Bound) -> float:
    """Energy that a ration should offer a person and day, low or high end [kcal/person-day].

    Range: the kinds of ration and bounds named in the types. Any other name: ValueError.

    Source: low band 4000-4500 kcal read in accounts of guided trips; mid, high and storm are
    common practice, no source. Targets fall with height because appetite does, not the need.

    Departs: nowhere.

    Independent check: 4173 +/- 848 kcal by armband on an ascent to 6170 m (Wilderness Environ
    Med 2013;24:337-344, abstract read): the low band lies inside it.
    """
    return require_choice("bound", bound, require_choice("ration", ration, _TARGET_KCAL))


def eaten_energy_kcal(
    *,
    offered_kcal: float,
    height_m: float,
    appetite_loss_from_m: float,
    appetite_loss_fraction_per_km: float,
) -> float:
    """Energy really eaten of a ration where appetite fades with height [kcal].

    Range: offered 0-10 000 kcal, height -430 to 8849 m, loss from 0-8849 m on, loss 0-0.5 a
    kilometre of height. Outside it: ValueError. The result is held at a quarter of the ration.

    Source: a straight line whose two numbers are arguments that the caller must show; common
    practice, no source. The line through a published ascent is appetite_lost_share in
    body_mass.py.

    Departs: the floor of a quarter is ours; without it the line would reach nothing eaten.

    Independent check: No independent check was found.
    """
    require_within("offered_kcal", offered_kcal, 0, 10_000, "kcal")
    require_within("height_m", height_m, -430, 8849, "m")
    require_within("appetite_loss_from_m", appetite_loss_from_m, 0, 8849, "m")
    require_within(
        "appetite_loss_fraction_per_km", appetite_loss_fraction_per_km, 0, 0.5, "of the ration/km"
    )
    above_km = max(0.0, height_m - appetite_loss_from_m) / 1000
    return offered_kcal * max(0.25, 1 - appetite_loss_fraction_per_km * above_km)


def energy_shortfall_kcal(*, eaten_kcal: float, need_kcal: float) -> float:
    """Energy by which the eaten food misses the need, zero where it suffices [kcal].

    Range: eaten and need 0-15 000 kcal. Outside it: ValueError. A surplus gives 0.

    Source: definition.

    Departs: nowhere.

    Independent check: historic man-hauling: 4400 kcal supplied against about 7000 spent (an
    Institute of Physics page, read) is a shortfall of about 2600 kcal.
    """
    require_within("eaten_kcal", eaten_kcal, 0, 15_000, "kcal")
    require_within("need_kcal", need_kcal, 0, 15_000, "kcal")
    return max(0.0, need_kcal - eaten_kcal)
