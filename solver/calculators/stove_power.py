"""How fast a stove heats a pot, and how long a kitchen melts and boils."""

from __future__ import annotations

from typing import Literal

from solver.calculators._ranges import require_choice, require_within

StoveKind = Literal["canister", "liquid"]
Shelter = Literal["open", "sheltered", "still"]

_STILL_W = {"liquid": 1100.0, "canister": 960.0}
_SHELTER = {"still": 1.0, "sheltered": 0.7, "open": 0.44}


def pot_power_w(*, stove: StoveKind, shelter: Shelter) -> float:
    """Heat that one stove puts into a pot with a lid [W].

    Range: the stoves and shelters named in the types. Any other name: ValueError. No cold and no
    thin air is in it: no controlled test of a stove in cold, wind or at height was found.

    Source: still air: single home tests (accounts read), 1 L from 16 to 93 degC in 4.1 to 4.8 min
    on liquid fuel, 1.1 to 1.3 kW, and in 5.7 min on a canister, 0.96 kW. Wind on the flame: the
    same pot took 18 to 25 min in place of 7 to 12 (an account, read), 0.44 of the power. Behind a
    snow wall or in a vestibule 0.7: common practice, no source, between the two.

    Departs: nowhere, having no publication to depart from. Measure your own stove.

    Independent check: No independent check was found; the published file works the home tests anew
    from the heat of the water.
    """
    factor = require_choice("shelter", shelter, _SHELTER)
    return factor * require_choice("stove", stove, _STILL_W)


def melting_hours(*, useful_kj: float, stoves: float, power_w: float) -> float:
    """Time in which that heat goes into the pots of that many stoves at once [h].

    Range: heat 0-2000000 kJ, stoves 1-50, power into a pot 50-5000 W. Outside it: ValueError. All
    stoves burn all the time; filling, handling and refuelling are not in it.

    Source: definition of power.

    Departs: nowhere.

    Independent check: No independent check was found; it is arithmetic.
    """
    require_within("useful_kj", useful_kj, 0, 2_000_000, "kJ")
    require_within("stoves", stoves, 1, 50, "stoves")
    require_within("power_w", power_w, 50, 5000, "W")
    return useful_kj * 1000 / (stoves * power_w) / 3600
