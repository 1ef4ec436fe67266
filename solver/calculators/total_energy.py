"""Energy that a person spends in a whole day of ordinary life.

These equations were fitted to people at home whose activity is already inside the class or
factor. They are never added to the energy of a day's hauling; daily_energy.py is for that.
"""

from __future__ import annotations

from typing import Literal

from solver.calculators._ranges import require_choice, require_within

Sex = Literal["female", "male"]
IomActivity = Literal["sedentary", "low_active", "active", "very_active"]
NasemActivity = Literal["inactive", "low_active", "active", "very_active"]

# The report has one set of activity factors a sex. Reprints of its table show the women's set
# under both sexes; the table's own energies can only be had with these.
_IOM_MEN = {"sedentary": 1.00, "low_active": 1.11, "active": 1.25, "very_active": 1.48}
_IOM_WOMEN = {"sedentary": 1.00, "low_active": 1.12, "active": 1.27, "very_active": 1.45}

# Intercept, then kcal per year of age, per cm of height and per kg of body mass.
_NASEM = {
    "male": {
        "inactive": (753.07, -10.83, 6.50, 14.10),
        "low_active": (581.47, -10.83, 8.30, 14.94),
        "active": (1004.82, -10.83, 6.52, 15.91),
        "very_active": (-517.88, -10.83, 15.61, 19.11),
    },
    "female": {
        "inactive": (584.90, -7.01, 5.72, 11.71),
        "low_active": (575.77, -7.01, 6.60, 12.14),
        "active": (710.25, -7.01, 6.54, 12.34),
        "very_active": (511.83, -7.01, 9.07, 12.56),
    },
}


def iom_2005_men_kcal_per_day(
    *, age_years: float, body_mass_kg: float, height_m: float, activity: IomActivity
) -> float:
    """Estimated energy requirement of a man, IOM 2005 [kcal/day].

    Range: age 19-90 years, body mass 40-150 kg, height 1.4-2.1 m (masses, heights and the upper
    age are our limits); people at home, not on expedition. Outside it: ValueError.

    Source: Institute of Medicine (2002/2005), Dietary Reference Intakes for Energy, Carbohydrate,
    Fiber, Fat, Fatty Acids, Cholesterol, Protein, and Amino Acids, table of requirements at 30
    years. Equation and table read in a reprint; the men's activity factors 1.00, 1.11, 1.25 and
    1.48 quoted, and worked back from the table.

    Departs: from the reprints, which print the women's factors for both sexes.

    Independent check: the report's table for men of 30 years, all 24 energies within 2 kcal.
    """
    factor = require_choice("activity", activity, _IOM_MEN)
    _require_iom_person(age_years=age_years, body_mass_kg=body_mass_kg, height_m=height_m)
    return 662 - 9.53 * age_years + factor * (15.91 * body_mass_kg + 539.6 * height_m)


def iom_2005_women_kcal_per_day(
    *, age_years: float, body_mass_kg: float, height_m: float, activity: IomActivity
) -> float:
    """Estimated energy requirement of a woman, IOM 2005 [kcal/day].

    Range: age 19-90 years, body mass 40-150 kg, height 1.4-2.1 m (masses, heights and the upper
    age are our limits); people at home, not on expedition. Outside it: ValueError.

    Source: Institute of Medicine (2002/2005), Dietary Reference Intakes for Energy, Carbohydrate,
    Fiber, Fat, Fatty Acids, Cholesterol, Protein, and Amino Acids, table of requirements at 30
    years. Equation, activity factors and table read in a reprint.

    Departs: nowhere.

    Independent check: the report's table for women of 30 years, all 24 energies within 2 kcal.
    """
    factor = require_choice("activity", activity, _IOM_WOMEN)
    _require_iom_person(age_years=age_years, body_mass_kg=body_mass_kg, height_m=height_m)
    return 354 - 6.91 * age_years + factor * (9.36 * body_mass_kg + 726 * height_m)


def nasem_2023_kcal_per_day(
    *,
    sex: Sex,
    age_years: float,
    body_mass_kg: float,
    height_cm: float,
    activity: NasemActivity,
) -> float:
    """Estimated energy requirement of an adult, NASEM 2023 [kcal/day].

    Range: age 19-90 years, body mass 40-150 kg, height 140-210 cm (masses, heights and the upper
    age are our limits); people at home, not on expedition. Outside it: ValueError.

    Source: National Academies (2023), Dietary Reference Intakes for Energy, equations for adults,
    doi 10.17226/26818. All eight rows quoted: the same coefficients stand in several public
    programs, one of which names the report's Table S-1; the report itself was not read.

    Departs: nowhere.

    Independent check: No independent check was found; worked values of other texts use the same
    equation.
    """
    rows = require_choice("sex", sex, _NASEM)
    intercept, per_year, per_cm, per_kg = require_choice("activity", activity, rows)
    require_within("age_years", age_years, 19, 90, "years")
    require_within("body_mass_kg", body_mass_kg, 40, 150, "kg")
    require_within("height_cm", height_cm, 140, 210, "cm")
    return intercept + per_year * age_years + per_cm * height_cm + per_kg * body_mass_kg


def fao_2004_total_kcal_per_day(
    *, basal_kcal_per_day: float, physical_activity_level: float
) -> float:
    """Total energy as basal energy times a physical activity level [kcal/day].

    Range: physical activity level 1.40-2.40, the ends of the report's life-style bands (the
    moderate band 1.70-1.99 read, the others from memory, unverified); basal energy 700-3500
    kcal/day (our limits). Outside it: ValueError. Levels above 2.40 are not kept up in energy
    balance (Westerterp 2018, doi 10.1017/S0029665117001148, read).

    Source: FAO (2004), Human energy requirements, Food and Nutrition Technical Report 1, section
    5.4.1 and Table 5.3. Worked example read.

    Departs: nowhere.

    Independent check: the report's worked example: 5.45 MJ basal x 1.85 = 10.08 MJ (2410 kcal).
    """
    require_within("basal_kcal_per_day", basal_kcal_per_day, 700, 3500, "kcal/day")
    require_within("physical_activity_level", physical_activity_level, 1.40, 2.40, "times basal")
    return basal_kcal_per_day * physical_activity_level


def _require_iom_person(*, age_years: float, body_mass_kg: float, height_m: float) -> None:
    require_within("age_years", age_years, 19, 90, "years")
    require_within("body_mass_kg", body_mass_kg, 40, 150, "kg")
    require_within("height_m", height_m, 1.4, 2.1, "m", "Height is in metres here.")
