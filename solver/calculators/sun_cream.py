"""Sun cream for faces and hands on snow."""

from __future__ import annotations

from solver.calculators._ranges import require_within

TEST_DOSE_MG_PER_CM2 = 2.0
FACE_AND_NECK_SHARE = 0.05
FACE_NECK_AND_HANDS_SHARE = 0.09


def full_dose_g(*, body_surface_m2: float, exposed_share: float) -> float:
    """Sun cream for one application at the dose of the protection test [g].

    Range: body surface 1.0 to 3.0 m², exposed share 0 to 1; refused outside.

    Source: the 2 mg/cm² at which sun protection factors are measured (ISO 24444 and the US rule for
    sunscreens); status: quoted. Shares of the body, face and neck 0.05, with hands 0.09:
    memory-unverified.

    Departs: does not.

    Independent check: none was found; 1.8 m² gives 1.8 g and 3.2 g for the two shares.
    """
    require_within("body_surface_m2", body_surface_m2, 1.0, 3.0, "m²")
    require_within("exposed_share", exposed_share, 0.0, 1.0, "of the body")
    return TEST_DOSE_MG_PER_CM2 * 10.0 * body_surface_m2 * exposed_share


def sun_cream_g(
    *,
    days: float,
    body_surface_m2: float = 1.8,
    exposed_share: float = FACE_AND_NECK_SHARE,
    applications_per_day: float = 4.0,
    dose_share: float = 0.5,
) -> float:
    """Sun cream for one person and a number of days [g].

    Range: 0 to 120 days, 1 to 8 applications a day, dose share 0.25 to 1; refused outside.

    Source: ``full_dose_g`` times applications times the share of the test dose that people really
    put on, between a quarter and a half (quoted); four applications for a day on snow: common
    practice, no source.

    Departs: from the test dose, which would need twice as much: half of it is planned, for face and
    neck only, because hands are in gloves. Ask for dose_share=1 to plan the tested protection.

    Independent check: common practice is about 3 oz of zinc-oxide cream per person for 24 days; the
    defaults give 86 g, 3.05 oz.
    """
    require_within("days", days, 0.0, 120.0, "days")
    require_within("applications_per_day", applications_per_day, 1.0, 8.0, "a day")
    require_within("dose_share", dose_share, 0.25, 1.0, "of the test dose")
    dose = full_dose_g(body_surface_m2=body_surface_m2, exposed_share=exposed_share)
    return days * applications_per_day * dose_share * dose


def ultraviolet_factor(*, height_gain_m: float) -> float:
    """How many times stronger ultraviolet light is this much higher up [-].

    Range: 0 to 9000 m, refused outside.

    Source: 4 % more for each 300 m of height; status: read. The World Health Organization's Global
    Solar UV Index, 2002, has 10 to 12 % for each 1000 m, and up to 80 % reflected from fresh snow:
    memory-unverified.

    Departs: the 4 % are added, not compounded. It is told to people as a caution and changes no
    amount of cream.

    Independent check: none was found; the two sources differ by a fifth.
    """
    require_within("height_gain_m", height_gain_m, 0.0, 9000.0, "m")
    return 1.0 + 0.04 * height_gain_m / 300.0
