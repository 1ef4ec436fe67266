"""Rules of elevation and calendar: how fast people sleep higher, how long and hard days are."""

from __future__ import annotations

from solver.rulebook.kinds import Rule, RuleKind, Setting, SourceStatus

_HARD, _PREFERENCE, _ADVISORY = RuleKind.HARD, RuleKind.PREFERENCE, RuleKind.ADVISORY
_PRACTICE, _READ = SourceStatus.PRACTICE, SourceStatus.READ

DAYS: tuple[Rule, ...] = (
    Rule(
        "sleeping_elevation_gain_held",
        "Above the threshold, the sleeping elevation rises by at most this much per night, on "
        "average since the last camp at or below the threshold. After this much ascent in all "
        "comes a night without a rise. A sleeping rule named in the conditions brings its own "
        "numbers.",
        "m",
        _HARD,
        _READ,
        "500 m per night above 3000 m, a night without a rise each 1000 m",
        (
            Setting("sleeping_threshold_m", 3000, "m", 0, 6000),
            Setting("sleeping_gain_m", 500, "m per night", 100, 1000),
            Setting("sleeping_rest_gain_m", 1000, "m", 300, 3000),
        ),
        on_glaciers=True,
    ),
    Rule(
        "sleeping_elevation_gain_cautious",
        "Above a lower threshold, the sleeping elevation rises by at most this smaller amount per "
        "night, on average since the last camp at or below the threshold. This is the strict pace; "
        "a sleeping rule or a physician may ask for it.",
        "m",
        _ADVISORY,
        _READ,
        "300 m per night above 2500 m",
        (
            Setting("cautious_threshold_m", 2500, "m", 0, 6000),
            Setting("cautious_gain_m", 300, "m per night", 100, 1000),
        ),
        on_glaciers=True,
    ),
    Rule(
        "big_step_prepared",
        "Before people sleep higher by more than the limit in one step, they spend enough nights "
        "at the lower camp and have been near the new elevation by day.",
        "nights or m",
        _HARD,
        _PRACTICE,
        "more than 500 m: 2 nights at the lower camp",
        (
            Setting("big_step_m", 500, "m", 100, 1500),
            Setting("big_step_nights", 2, "nights", 1, 7),
        ),
        on_glaciers=True,
    ),
    Rule(
        "carried_high_first",
        "Above the threshold elevation, people have been near the elevation of a new highest camp "
        "by day before they sleep there.",
        "m",
        _PREFERENCE,
        _PRACTICE,
        "within 150 m of the new camp",
        (Setting("carry_short_m", 150, "m", 0, 500),),
        on_glaciers=True,
    ),
    Rule(
        "hard_days_limited",
        "After a few long travel days in a row comes a rest day or a short day.",
        "days",
        _PREFERENCE,
        _PRACTICE,
        "3 days of 4 hours or more",
        (
            Setting("hard_days_running", 3, "days", 1, 10),
            Setting("hard_day_hours", 4.0, "h", 1.0, 12.0, whole=False),
        ),
        on_glaciers=True,
    ),
    Rule(
        "summit_times_kept",
        "A summit day whose times are given starts and turns round no later than the limits.",
        "minutes",
        _HARD,
        _PRACTICE,
        "start by 07:00, turn round by 15:00",
        (
            Setting("summit_start_hour", 7.0, "h of the day", 0.0, 12.0, whole=False),
            Setting("turn_round_hour", 15.0, "h of the day", 6.0, 24.0, whole=False),
        ),
        on_glaciers=True,
    ),
    Rule(
        "summit_times_not_given",
        "The request gives the start time and the turn-round time of each summit day.",
        "times",
        _ADVISORY,
        _PRACTICE,
        on_glaciers=True,
    ),
    Rule(
        "travel_hours_limited",
        "A day without a summit has at most this many hours of travel, since people carry loads.",
        "minutes",
        _PREFERENCE,
        _PRACTICE,
        "8 hours",
        (Setting("travel_hours", 8.0, "h", 1.0, 16.0, whole=False),),
        on_glaciers=True,
    ),
    Rule(
        "leg_hours_not_given",
        "For each leg that is travelled, the request gives the hours, or the distance and ascent "
        "from which they follow.",
        "directions",
        _ADVISORY,
        _PRACTICE,
        on_glaciers=True,
    ),
    Rule(
        "weather_days_enough",
        "A long calendar has enough days without travel for bad weather, between the first trip "
        "and the last.",
        "days",
        _PREFERENCE,
        _PRACTICE,
        "15 % of a trip of 7 days or more",
        (
            Setting("weather_days_percent", 15, "%", 0, 50),
            Setting("weather_from_days", 7, "days", 1, 60),
        ),
        on_glaciers=True,
    ),
    Rule(
        "sled_slope_limited",
        "No leg on which sleds are hauled is steeper than the limit at its steepest point.",
        "degrees",
        _HARD,
        _PRACTICE,
        "25 degrees",
        (Setting("steepest_sled_deg", 25, "degrees", 5, 45),),
    ),
    Rule(
        "sled_lowered_on_steep",
        "Going down a leg steeper than the limit, people hold back or lower the sleds.",
        "degrees",
        _ADVISORY,
        _PRACTICE,
        "20 degrees",
        (Setting("lower_sled_deg", 20, "degrees", 5, 45),),
    ),
    Rule(
        "sled_slope_not_given",
        "The request gives the steepest angle of each leg on which sleds are hauled.",
        "legs",
        _ADVISORY,
        _PRACTICE,
        on_glaciers=True,
    ),
)
