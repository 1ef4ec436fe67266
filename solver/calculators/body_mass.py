"""Body mass that a lack of food takes, and what appetite leaves on the plate high up."""

from __future__ import annotations

from solver.calculators._ranges import require_within

FAT_KCAL_PER_KG = 9440.0
LEAN_KCAL_PER_KG = 1820.0
FAT_SHARE = 0.61


def mass_lost_kg(*, deficit_kcal: float, fat_share: float) -> float:
    """Body mass that pays for a lack of energy [kg].

    Range: deficit 0-500000 kcal, fat share of what is lost 0.2-0.9. Outside it: ValueError. Fat and
    lean tissue only: water and glycogen swing by 1 to 3 kg besides (from memory, unverified), so a
    balance of less than ten days proves little.

    Source: 9440 kcal a kilogram of fat and 1820 of lean tissue (Hall 2008, Int J Obes 32:573-576,
    from memory, unverified). A usual fat share is 0.61: 1.7 kg of fat and 1.1 kg of lean in 24 days
    on a cold high peak (an indexed abstract, read); two thirds on a trek (Armellini et al. 1997,
    Horm Metab Res 29:458-461, abstract read); above 5400 m it fell to 0.27 (Boyer and Blume 1984,
    J Appl Physiol 57:1580, abstract read).

    Departs: nowhere.

    Independent check: Hill et al. 2008, doi 10.1055/s-2008-1038492 (abstract read): three hikers
    lacked 12592 kcal in five days and lost 1.7 +/- 0.6 kg.
    """
    require_within("deficit_kcal", deficit_kcal, 0, 500_000, "kcal")
    require_within("fat_share", fat_share, 0.2, 0.9, "of the mass lost")
    return deficit_kcal / (fat_share * FAT_KCAL_PER_KG + (1 - fat_share) * LEAN_KCAL_PER_KG)


def appetite_lost_share(*, elevation_m: float) -> float:
    """Share of the food wanted lower down that people do not eat at an elevation [1].

    Range: elevation -430 to 8849 m. Outside it: ValueError.

    Source: 3136 kcal fell to 1789 over an ascent to 8848 m simulated in a chamber (Rose et al.
    1988, J Appl Physiol 65:2545-2551, abstract read), 43 % less. The line through it is ours: from
    none at 2500 m evenly to 43 % at 8848 m.

    Departs: a chamber has neither cold nor work, and appetite comes back within weeks at a steady
    height (Karl et al. 2018, abstract read, back by day 18 at 4300 m).

    Independent check: intake 9-13 % below that at home up to 4260 m (Westerterp et al. 1992, J Appl
    Physiol 73:1815-1819, abstract read).
    """
    require_within("elevation_m", elevation_m, -430, 8849, "m")
    rise = max(0.0, elevation_m - 2500) / (8848 - 2500)
    return min(1.0, rise) * (1 - 1789 / 3136)
