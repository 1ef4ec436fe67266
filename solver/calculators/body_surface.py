"""Surface of the human body."""

from __future__ import annotations

import math

from solver.calculators._ranges import require_within


def dubois_1916_m2(*, body_mass_kg: float, height_cm: float) -> float:
    """Surface of a person's body [m²].

    Range: 30 to 200 kg and 120 to 220 cm, refused outside (our limits, adults).

    Source: D. DuBois and E. F. DuBois, A formula to estimate the approximate surface area if height
    and weight be known, Arch Intern Med 17:863-871, 1916: 0.007184 W^0.425 H^0.725; status:
    memory-unverified for the citation, computed for the result.

    Departs: does not.

    Independent check: none was found; the worked value 75 kg, 178 cm guards against typing slips.
    """
    require_within("body_mass_kg", body_mass_kg, 30, 200, "kg")
    require_within("height_cm", height_cm, 120, 220, "cm")
    return 0.007184 * math.pow(body_mass_kg, 0.425) * math.pow(height_cm, 0.725)
