"""Preferences and cautions on loads: what a good plan does beyond what every plan must."""

from __future__ import annotations

from solver.rulebook.kinds import Rule, RuleKind, Setting, SourceStatus

_PRACTICE = SourceStatus.PRACTICE
_PREFERENCE = RuleKind.PREFERENCE


def _percent(name: str, value: int) -> Setting:
    return Setting(name, value, "%", 0, 100)


PREFERENCES: tuple[Rule, ...] = (
    Rule(
        "planning_limit_kept",
        "Nobody's load is planned above this share of the cap. The rest is for things that were "
        "not weighed.",
        "1/10000 of the cap",
        _PREFERENCE,
        _PRACTICE,
        "95 % of the cap",
        (Setting("planned_load_percent", 95, "%", 1, 100),),
    ),
    Rule(
        "pack_light_for_body",
        "On fixed ropes and steep legs, a pack and what its carrier wears and has in use weigh "
        "together at most this share of the carrier's body mass, unless the request says that the "
        "person is strong. Doctrine calls more than 45 % an emergency load.",
        "g",
        RuleKind.ADVISORY,
        SourceStatus.READ,
        "33 % from 20 deg up",
        (
            _percent("pack_share_of_body_percent", 33),
            _percent("pack_emergency_percent", 45),
            Setting("steep_ground_deg", 20, "deg", 0, 90, whole=False),
        ),
    ),
    Rule(
        "heaviest_days_limited",
        "The same person does not have the largest load of the day, as a share of the cap in "
        "whole per cent, on more than this many travel days in a row. A day on which somebody "
        "else has an equal share ends the streak.",
        "days",
        _PREFERENCE,
        _PRACTICE,
        "2 days",
        (Setting("heaviest_days", 2, "days", 1, 60),),
        steered=True,
    ),
    Rule(
        "sled_share_uphill",
        "Going up, the sled's share of its hauler's load is in the recommended band. The band "
        "depends on the leg's steepest angle.",
        "%",
        _PREFERENCE,
        _PRACTICE,
        "45 to 65 % below 10 deg, 30 to 50 % below 20 deg, 15 to 35 % from there",
        (
            _percent("flat_least_sled_percent", 45),
            _percent("flat_most_sled_percent", 65),
            _percent("gentle_least_sled_percent", 30),
            _percent("gentle_most_sled_percent", 50),
            _percent("steep_least_sled_percent", 15),
            _percent("steep_most_sled_percent", 35),
            Setting("gentle_slope_deg", 10, "deg", 0, 90, whole=False),
            Setting("steep_slope_deg", 20, "deg", 0, 90, whole=False),
        ),
        steered=True,
    ),
    Rule(
        "sled_share_downhill",
        "Going down a slope, the sled's share of its hauler's load is in a lower band than going "
        "up.",
        "%",
        _PREFERENCE,
        _PRACTICE,
        "20 to 45 % from 10 to below 20 deg",
        (_percent("down_least_sled_percent", 20), _percent("down_most_sled_percent", 45)),
        steered=True,
    ),
    Rule(
        "sled_light_on_traverse",
        "On a leg with a traverse, a sled weighs at most this share of what the hauler's cap "
        "allows going straight up there.",
        "g",
        _PREFERENCE,
        _PRACTICE,
        "70 % of cap times factor",
        (_percent("traverse_sled_percent", 70),),
        steered=True,
    ),
    Rule(
        "last_on_rope_light",
        "Going down, the sled of the last person on a rope is no heavier than any other sled of "
        "the rope team.",
        "g",
        _PREFERENCE,
        _PRACTICE,
        on_glaciers=True,
        steered=True,
    ),
    Rule(
        "lead_sled_light",
        "On legs with crevasses, the sled of the first person on a rope is well below its cap.",
        "g",
        _PREFERENCE,
        _PRACTICE,
        "80 % of cap times factor",
        (_percent("lead_sled_percent", 80),),
        on_glaciers=True,
        steered=True,
    ),
    Rule(
        "guides_carry_rescue_kit",
        "On every trip, guides or the people at the ends of a rope carry the shared rope, rescue "
        "kit and medical kit.",
        "units",
        _PREFERENCE,
        _PRACTICE,
        on_glaciers=True,
        steered=True,
    ),
    Rule(
        "fuel_apart_from_food",
        "No pack and no sled holds both fuel and bags of food: a container that leaks spoils the "
        "food. Full and open containers and fuel among the gear count as fuel. Empty containers "
        "and the lunch of the day do not count.",
        "loads",
        _PREFERENCE,
        _PRACTICE,
        steered=True,
    ),
    Rule(
        "keeper_has_it",
        "If the request names the keeper of an item, that person has the item on every trip on "
        "which both are. A load cap may make this impossible, so it is no hard rule.",
        "units",
        _PREFERENCE,
        _PRACTICE,
        steered=True,
    ),
    Rule(
        "hand_overs_few",
        "Nobody takes over many units in a day that other people carried on the days before and "
        "now set down.",
        "units",
        _PREFERENCE,
        _PRACTICE,
        "4 units",
        (Setting("most_hand_overs", 4, "units", 0, 100),),
    ),
    Rule(
        "limited_load_within_rope_team",
        "When several rope teams travel together and somebody has a load limit, the others on "
        "that person's rope take up the difference. Their shares of their caps are at least as "
        "high as in other teams.",
        "%",
        _PREFERENCE,
        _PRACTICE,
    ),
)
