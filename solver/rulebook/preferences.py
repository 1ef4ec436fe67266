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
        "Nobody's load is planned above a share of the cap that leaves room for what was not "
        "weighed.",
        "1/10000 of the cap",
        _PREFERENCE,
        _PRACTICE,
        "95 % of the cap",
        (Setting("planned_load_percent", 95, "%", 1, 100),),
    ),
    Rule(
        "pack_light_for_body",
        "On fixed ropes and steep legs a pack is at most a share of its carrier's body mass, "
        "unless the person is said to be strong; doctrine calls more than 45 % an emergency load.",
        "g",
        RuleKind.CAUTION,
        SourceStatus.READ,
        "35 % from 20 deg up",
        (
            _percent("pack_share_of_body_percent", 35),
            _percent("pack_emergency_percent", 45),
            Setting("steep_ground_deg", 20, "deg", 0, 90, whole=False),
        ),
    ),
    Rule(
        "heaviest_days_limited",
        "Nobody alone has the day's highest load, in whole per cent of the cap, on too many "
        "travel days running.",
        "days",
        _PREFERENCE,
        _PRACTICE,
        "2 days",
        (Setting("heaviest_days", 2, "days", 1, 60),),
        steered=True,
    ),
    Rule(
        "sled_share_uphill",
        "Going up, a sled's share of its hauler's pack and sled is in the band for the leg's "
        "steepest angle.",
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
        "Going down a slope, a sled's share of its hauler's pack and sled is in a lower band "
        "than going up.",
        "%",
        _PREFERENCE,
        _PRACTICE,
        "20 to 45 % from 10 to below 20 deg",
        (_percent("down_least_sled_percent", 20), _percent("down_most_sled_percent", 45)),
        steered=True,
    ),
    Rule(
        "sled_light_on_traverse",
        "On a leg with a traverse a sled is at most a share of what it may be straight up there.",
        "g",
        _PREFERENCE,
        _PRACTICE,
        "70 % of cap times factor",
        (_percent("traverse_sled_percent", 70),),
        steered=True,
    ),
    Rule(
        "last_on_rope_light",
        "Going down, the last person of a rope team hauls a sled no heavier than any other of "
        "the team, or none.",
        "g",
        _PREFERENCE,
        _PRACTICE,
        on_glaciers=True,
        steered=True,
    ),
    Rule(
        "lead_sled_light",
        "On legs with crevasses the lead of each rope team hauls a sled well below its cap.",
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
        "Shared rope, rescue kit and medical kit of every trip ride with guides or with the "
        "people at the ends of a rope.",
        "units",
        _PREFERENCE,
        _PRACTICE,
        on_glaciers=True,
        steered=True,
    ),
    Rule(
        "hand_overs_few",
        "Nobody begins a day with many units that others carried on the days before.",
        "units",
        _PREFERENCE,
        _PRACTICE,
        "4 units",
        (Setting("most_hand_overs", 4, "units", 0, 100),),
    ),
    Rule(
        "limited_load_within_rope_team",
        "On a trip of several rope teams, the people roped with somebody who has a load limit "
        "carry no smaller a share of their caps than those of other teams.",
        "%",
        _PREFERENCE,
        _PRACTICE,
    ),
)
