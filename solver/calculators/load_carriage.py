"""How heavy a load is for the body that carries or hauls it.

Take the lightest member of a party, not the mean. "Load" in doctrine includes worn clothing,
boots and equipment.
"""

from __future__ import annotations

from typing import Literal

from solver.calculators._ranges import require_within

PackBand = Literal["amber", "green", "orange", "red"]
HauledBand = Literal["above", "upper", "usual"]


def load_fraction(*, load_kg: float, body_mass_kg: float) -> float:
    """Load as a share of body mass [1].

    Range: load 0-150 kg, body mass 30-200 kg. Outside it: ValueError.

    Source: definition.

    Departs: nowhere.

    Independent check: a soldier of 153.6 lb with 50.7 lb carries 33 % (Marshall 1950, through the
    MCCDC Combat Load Report of 2003, read).
    """
    require_within("load_kg", load_kg, 0, 150, "kg")
    require_within("body_mass_kg", body_mass_kg, 30, 200, "kg")
    return load_kg / body_mass_kg


def marshall_1950_pack_kg(*, body_mass_kg: float) -> float:
    """Best marching load by the one-third rule [kg].

    Range: body mass 30-200 kg. Outside it: ValueError.

    Source: Marshall (1950), through the MCCDC Combat Load Report (2003), read: 33 % of body
    weight. Langmuir (2004), p. 247, gives a third for mountaineers (quoted).

    Departs: nowhere.

    Independent check: the report's figures: 153.6 lb of body weight and 50.7 lb of load.
    """
    require_within("body_mass_kg", body_mass_kg, 30, 200, "kg")
    return 0.33 * body_mass_kg


def pack_band(*, pack_kg: float, body_mass_kg: float) -> PackBand:
    """Warning band of a pack on a body: green, amber, orange or red [name].

    Range: pack 0-150 kg, body mass 30-200 kg. Outside it: ValueError. Green to a quarter of body
    mass, amber to a third, orange to 45 %, red above; a load exactly at a limit has the milder
    band.

    Source: derived, not published as bands. A quarter all day for fit adults: Bastien et al.
    (2016), J Exp Biol 219:3626 (read); a third: Marshall (1950) and Langmuir (2004), p. 247 (read
    in texts that quote them); above 45 % is an emergency load: FM 3-21.8, paragraphs 7-20 and
    7-21 (read).

    Departs: the colours and the joining of three sources are ours. Porters used to it carry far
    more: Bastien et al. (2005), Science 308:1755 (read).

    Independent check: No independent check was found for the bands.
    """
    fraction = load_fraction(load_kg=pack_kg, body_mass_kg=body_mass_kg)
    if fraction <= 0.25:
        return "green"
    if fraction <= 1 / 3:
        return "amber"
    if fraction <= 0.45:
        return "orange"
    return "red"


def hauled_band(*, pack_kg: float, sled_kg: float, body_mass_kg: float) -> HauledBand:
    """Warning band of pack and sled together on a gentle glacier: usual, upper or above [name].

    Range: pack and sled 0-150 kg each, 0-150 kg together, body mass 30-200 kg. Outside it:
    ValueError. Usual to 60 % of body mass, upper to 70 %, above beyond; at a limit the milder
    band. Only for gentle ground: from about 20 % slope, or on a side slope, sled mass goes to
    packs or into a second carry.

    Source: derived, not published. Parties on big mountains commonly start with about 50 kg a
    person in pack and sled (read in trip accounts).

    Departs: nowhere, having no publication to depart from.

    Independent check: No independent check was found.
    """
    require_within("pack_kg", pack_kg, 0, 150, "kg")
    require_within("sled_kg", sled_kg, 0, 150, "kg")
    fraction = load_fraction(load_kg=pack_kg + sled_kg, body_mass_kg=body_mass_kg)
    if fraction <= 0.60:
        return "usual"
    if fraction <= 0.70:
        return "upper"
    return "above"
