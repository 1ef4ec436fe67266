"""Why a rule is laxer or narrower than a document that stands behind it."""

from __future__ import annotations

from collections.abc import Mapping

DEPARTURES: Mapping[str, str] = {
    "sleeping_elevation_gain_held": (
        "As a hard rule this keeps the loosest pace that any document gives: what is faster has no "
        "support, and stricter ones would forbid many common calendars. The strict pace is the "
        "advisory sleeping_elevation_gain_cautious, or the sleeping rule cautious named in the "
        "conditions."
    ),
    "sleeping_elevation_gain_cautious": (
        "Rests each 2 to 3 days are asked only where the sleeping rule cautious is named."
    ),
    "container_fill_limited": (
        "Three quarters are for what a stove puts under pressure. A can that only stores may be "
        "filled to 95 %: warmed by 50 K, fuel expands by about 5 % (by arithmetic)."
    ),
    "fuel_rate_in_band": "No document gives the upper figure for gas; it is common practice.",
    "stove_works_in_cold": "The document means the fuel's temperature, the rule the night's.",
    "stove_needs_air": "Stricter: 50 cm2 each, where the document reads as 50 cm2 in all.",
    "energy_on_target": (
        "Lower figures than 4000 kcal are common practice: 3700 from 3000 m, and 2800 in storm "
        "sets. Need does not fall with elevation; only appetite does, from about 5000 m."
    ),
    "food_mass_in_band": (
        "The least is below the lowest documented day, since sets rich in fat have the same energy "
        "in less mass."
    ),
    "human_waste_carried_out": "On much fibre people leave up to twice the median; state it then.",
    "human_waste_containers_enough": (
        "The documents come to 1.0 to 1.4 L of outer volume; the rule counts inner volume."
    ),
    "communicators_with_voice": (
        "The document asks for two satellite telephones of one model; a voice radio also counts."
    ),
    "pack_light_for_body": "It is asked on steep ground only, and forbids nothing.",
}
"""By rule id; what is stricter is named as well where that is not obvious."""
