"""Rules of fuel and stoves: how much is burnt, in what cold, and how it is kept."""

from __future__ import annotations

from solver.rulebook.kinds import Rule, RuleKind, Setting, SourceStatus

_HARD, _ADVISORY = RuleKind.HARD, RuleKind.ADVISORY
_PRACTICE, _READ = SourceStatus.PRACTICE, SourceStatus.READ

FUEL: tuple[Rule, ...] = (
    Rule(
        "fuel_rate_in_band",
        "The fuel of a night set is what melting snow and cooking usually take for one person and "
        "night.",
        "mL or g",
        _ADVISORY,
        _READ,
        "167 to 500 mL of liquid fuel, 76 to 160 g of gas",
        (
            Setting("least_liquid_fuel_ml", 167, "mL", 0, 2000),
            Setting("most_liquid_fuel_ml", 500, "mL", 0, 2000),
            Setting("least_gas_g", 76, "g", 0, 2000),
            Setting("most_gas_g", 160, "g", 0, 2000),
        ),
        on_glaciers=True,
    ),
    Rule(
        "fuel_covers_water",
        "Where the water melted and boiled is given, the fuel of a night set covers at least the "
        "heat for it with a good stove.",
        "mL",
        _ADVISORY,
        SourceStatus.DERIVED,
        "55 % of the heat reaches the pot, where nothing else is given",
        (Setting("good_stove_percent", 55, "%", 10, 75),),
        on_glaciers=True,
    ),
    Rule(
        "stove_works_in_cold",
        "There is no stove for gas canisters at a camp where nights are colder than the limit. "
        "There such a stove fails even with the canister upside down.",
        "degC",
        _HARD,
        _READ,
        "-18 degC",
        (Setting("coldest_gas_c", -18.0, "degC", -45.0, 10.0, whole=False),),
        on_glaciers=True,
    ),
    Rule(
        "canister_upright_in_cold",
        "Where nights are colder than the limit, nobody relies on a gas canister that stands "
        "upright.",
        "degC",
        _ADVISORY,
        _READ,
        "-7 degC",
        (Setting("upright_gas_c", -7.0, "degC", -45.0, 10.0, whole=False),),
        on_glaciers=True,
    ),
    Rule(
        "weather_multiplies_fuel",
        "Cold, wind and melting snow multiply the fuel use that a stove's maker gives for boiling "
        "water.",
        "%",
        _ADVISORY,
        _READ,
        "400 %",
        (Setting("weather_fuel_percent", 400, "%", 100, 600),),
        on_glaciers=True,
    ),
    Rule(
        "fuel_stowed_rear",
        "On a sled, fuel rides upright at the rear, outside the food.",
        "sleds",
        _ADVISORY,
        _READ,
        on_glaciers=True,
    ),
    Rule(
        "container_fill_limited",
        "A bottle for liquid fuel, which a stove puts under pressure, is filled to three quarters "
        "at most. A larger can is filled nearly to the brim at most. This is checked where the "
        "capacity is given.",
        "mL",
        _HARD,
        _READ,
        "75 % up to 1.5 L, 95 % above",
        (
            Setting("bottle_fill_percent", 75, "%", 10, 95),
            Setting("can_fill_percent", 95, "%", 10, 100),
            Setting("bottle_ml", 1500, "mL", 0, 20_000),
        ),
        on_glaciers=True,
    ),
    Rule(
        "container_capacity_given",
        "The request gives the capacity to the brim of each container for liquid fuel.",
        "containers",
        _ADVISORY,
        _PRACTICE,
        on_glaciers=True,
    ),
    Rule(
        "stove_needs_air",
        "A stove in a tent or snow shelter has a low vent and a high vent open beside it.",
        "cm2",
        _ADVISORY,
        _READ,
        "50 cm2 each",
        (Setting("vent_cm2", 50, "cm2", 10, 1000),),
        on_glaciers=True,
    ),
    Rule(
        "fuel_burns_cold_skin",
        "On nights below freezing, people wear gloves when they handle liquid fuel.",
        "nights",
        _ADVISORY,
        _READ,
        "0 degC",
        (Setting("cold_fuel_c", 0.0, "degC", -60.0, 10.0, whole=False),),
        on_glaciers=True,
    ),
)
