"""Making water safe that was not boiled."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from solver.calculators._ranges import require_choice, require_within
from solver.calculators._rounding import whole_up

Agency = Literal["cdc", "epa", "health_canada", "who"]

# Minutes of rolling boil, the height above which it is longer, and the longer time.
_BOIL = {
    "cdc": (1.0, 1981.0, 3.0),
    "epa": (1.0, 1524.0, 3.0),
    "health_canada": (1.0, 2000.0, 2.0),
    "who": (0.0, 0.0, 0.0),
}


def boil_minutes(*, geometric_height_m: float, agency: Agency = "cdc") -> float:
    """Minutes of rolling boil that make water safe, by a health agency's advice [min].

    Range: -500 to 9000 m, refused outside; one of the four agencies.

    Source: Dorris, Miko, Kunz and Hill, Variance Among Public Health Agencies' Boil Water Guidance,
    Emerg Infect Dis 31(8), 2025, table: CDC 1 min, 3 min above 1981 m; EPA 1 min, 3 min above
    1524 m; Health Canada 1 min, 2 min above 2000 m; WHO no time beyond reaching the boil; status:
    read.

    Departs: does not. The same table notes a CDC handbook for travellers that asks for no longer
    time at height.

    Independent check: none was found.
    """
    require_within("geometric_height_m", geometric_height_m, -500.0, 9000.0, "m")
    low, limit, high = require_choice("agency", agency, _BOIL)
    return high if geometric_height_m > limit else low


@dataclass(frozen=True, slots=True)
class Treatment:
    """Tablets or doses for water that is only melted, and the packages to buy."""

    doses: int
    packs: int


def treatment_doses(
    *, untreated_l: float, l_per_dose: float = 1.0, doses_per_pack: float = 30.0
) -> Treatment:
    """Treatment doses for melted, unboiled water, rounded up to what is sold [count].

    Range: 0 to 10 000 L, 0.5 to 20 L per dose, 1 to 500 doses per pack; refused outside.

    Source: common practice, no source: one tablet for one litre, packs of 30. Read the packet: cold
    water needs a longer time of contact.

    Departs: not a published model. Clean snow above a camp is commonly drunk untreated; melting
    alone gives no assurance that it is safe.

    Independent check: none was found; it is arithmetic.
    """
    require_within("untreated_l", untreated_l, 0.0, 10_000.0, "L")
    require_within("l_per_dose", l_per_dose, 0.5, 20.0, "L")
    require_within("doses_per_pack", doses_per_pack, 1.0, 500.0, "doses")
    doses = whole_up(untreated_l / l_per_dose)
    return Treatment(doses=doses, packs=whole_up(doses / doses_per_pack))
