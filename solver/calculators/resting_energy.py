"""Energy that a resting body needs in a day."""

from __future__ import annotations

from typing import Literal

from solver.calculators._ranges import require_choice, require_within

Sex = Literal["female", "male"]

_MIFFLIN_OFFSET_KCAL = {"female": -161.0, "male": 5.0}

# Slope [kcal/kg] and offset [kcal] by sex, for ages 18 to under 30, 30 to under 60, and 60 on.
_SCHOFIELD = {
    "female": ((14.818, 486.6), (8.126, 845.6), (9.082, 658.5)),
    "male": ((15.057, 692.2), (11.472, 873.1), (11.711, 587.7)),
}


def mifflin_1990_resting_kcal_per_day(
    *, sex: Sex, body_mass_kg: float, height_cm: float, age_years: float
) -> float:
    """Resting energy by Mifflin and St Jeor [kcal/day].

    Range: age 19-78 years (the ages of the study's subjects, from memory, unverified); body mass
    30-200 kg and height 130-220 cm (our limits). Outside it: ValueError.

    Source: Mifflin, St Jeor et al. (1990), A new predictive equation for resting energy
    expenditure in healthy individuals, Am J Clin Nutr 51:241-247. Coefficients from memory,
    unverified.

    Departs: nowhere.

    Independent check: No independent check was found; the tests guard against typing slips.
    """
    offset_kcal = require_choice("sex", sex, _MIFFLIN_OFFSET_KCAL)
    require_within("body_mass_kg", body_mass_kg, 30, 200, "kg")
    require_within("height_cm", height_cm, 130, 220, "cm")
    require_within("age_years", age_years, 19, 78, "years")
    return 10 * body_mass_kg + 6.25 * height_cm - 5 * age_years + offset_kcal


def fao_2004_basal_kcal_per_day(*, sex: Sex, body_mass_kg: float, age_years: float) -> float:
    """Basal energy by the FAO/WHO/UNU equations, after Schofield [kcal/day].

    Range: age 18-90 years and body mass 30-200 kg (upper ages and masses are our limits).
    Outside it: ValueError.

    Source: FAO (2004), Human energy requirements, report of the joint FAO/WHO/UNU consultation of
    2001, Food and Nutrition Technical Report 1, Table 5.2. Coefficients quoted: read in an
    encyclopaedia's article on the Schofield equation, not in the report.

    Departs: the report's age groups share their ends (18-30, 30-60); here a person of exactly 30
    or 60 belongs to the older group.

    Independent check: the report's own worked example in section 5.4.1 (women of 18-30 years and
    55 kg, 1302 kcal/day), read.
    """
    groups = require_choice("sex", sex, _SCHOFIELD)
    require_within("body_mass_kg", body_mass_kg, 30, 200, "kg")
    require_within("age_years", age_years, 18, 90, "years")
    if age_years < 30:
        slope, offset_kcal = groups[0]
    elif age_years < 60:
        slope, offset_kcal = groups[1]
    else:
        slope, offset_kcal = groups[2]
    return slope * body_mass_kg + offset_kcal
