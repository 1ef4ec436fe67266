"""Rules of food, cook groups and water: who eats what, how much, and where."""

from __future__ import annotations

from solver.rulebook.kinds import Rule, RuleKind, Setting, SourceStatus

_HARD, _PREFERENCE, _ADVISORY = RuleKind.HARD, RuleKind.PREFERENCE, RuleKind.ADVISORY
_PRACTICE, _READ = SourceStatus.PRACTICE, SourceStatus.READ

FOOD: tuple[Rule, ...] = (
    Rule(
        "allergens_avoided",
        "No night set that a person's cook group eats or holds in reserve contains anything that "
        "the person must not eat. Lunch and drinks are included. For people with a menu of their "
        "own, this applies to the sets of that menu. No set of any menu of the kitchen contains "
        "anything to which somebody there reacts severely.",
        "allergens",
        _HARD,
        _PRACTICE,
        firm="each person says what they must not eat: change what the person avoids instead",
    ),
    Rule(
        "lunch_shared_with_allergic",
        "Nobody on the rope of a person who reacts severely eats a night set with that allergen.",
        "people",
        _PREFERENCE,
        _PRACTICE,
    ),
    Rule(
        "diet_kept",
        "Every night set that a person's cook group eats or holds in reserve suits the person's "
        "diet. For people with a menu of their own, this applies to the sets of that menu.",
        "sets",
        _HARD,
        _PRACTICE,
    ),
    Rule(
        "lunch_needs_no_cooking",
        "Nobody eats a travel lunch that needs cooking.",
        "days",
        _HARD,
        _PRACTICE,
        on_glaciers=True,
    ),
    Rule(
        "food_stands_frost",
        "Food and items that freezing spoils or bursts are never at a place whose nights are "
        "colder than they can bear.",
        "degC",
        _HARD,
        _PRACTICE,
        on_glaciers=True,
    ),
    Rule(
        "energy_floor_held",
        "A night set whose energy is given has at least what a person needs to get through a day. "
        "Storm sets are included.",
        "kcal",
        _HARD,
        _PRACTICE,
        "2500 kcal",
        (Setting("least_energy_kcal", 2500, "kcal", 1000, 6000),),
        on_glaciers=True,
    ),
    Rule(
        "energy_on_target",
        "A night set has the energy recommended for the elevation where it is eaten. A storm set "
        "has the energy recommended for a day of rest.",
        "kcal",
        _PREFERENCE,
        _READ,
        "4000 kcal, 3700 from 3000 m, 3700 from 4000 m, 2800 in storm sets",
        (
            Setting("low_energy_kcal", 4000, "kcal", 1500, 8000),
            Setting("middle_energy_kcal", 3700, "kcal", 1500, 8000),
            Setting("high_energy_kcal", 3700, "kcal", 1500, 8000),
            Setting("storm_energy_kcal", 2800, "kcal", 1500, 8000),
            Setting("middle_from_m", 3000, "m", 0, 9000),
            Setting("high_from_m", 4000, "m", 0, 9000),
        ),
        on_glaciers=True,
    ),
    Rule(
        "mass_loss_limited",
        "Nobody likely loses more of their body mass over the trip than strength and warmth bear, "
        "by what they spend and what they eat; an estimate, no medical advice.",
        "g",
        _ADVISORY,
        _PRACTICE,
        "5 % of the body",
        (Setting("most_mass_loss_percent", 5, "%", 1, 30),),
        on_glaciers=True,
    ),
    Rule(
        "food_mass_in_band",
        "A night set, with packaging and lunch, weighs about as much as one day's food usually "
        "weighs.",
        "g",
        _ADVISORY,
        _READ,
        "700 to 1200 g",
        (
            Setting("least_food_g", 700, "g", 200, 2000),
            Setting("most_food_g", 1200, "g", 200, 3000),
        ),
        on_glaciers=True,
    ),
    Rule(
        "menu_in_elevation_band",
        "A night set is eaten only at the elevations for which it is meant. A set that simmers is "
        "eaten only at camps low enough for simmering.",
        "m",
        _PREFERENCE,
        _PRACTICE,
        "simmering up to 3250 m",
        (Setting("boil_and_wait_from_m", 3250, "m", 0, 9000),),
        on_glaciers=True,
    ),
    Rule(
        "menu_varied",
        "The same dinner comes again this many nights later at the earliest.",
        "dinners",
        _PREFERENCE,
        SourceStatus.PRINCIPLE,
        "every 3rd night",
        (Setting("dinner_again_nights", 3, "nights", 1, 14),),
        on_glaciers=True,
    ),
    Rule(
        "water_enough",
        "Where the water melted and boiled is given, it is together what a person needs in a day.",
        "mL",
        _HARD,
        _READ,
        "4 L",
        (Setting("least_water_l", 4.0, "L", 1.0, 10.0, whole=False),),
        on_glaciers=True,
    ),
    Rule(
        "summit_day_fed",
        "On a day that visits a summit, each person carries enough water. A lunch whose energy is "
        "given has enough energy for that day.",
        "g or kcal",
        _HARD,
        _PRACTICE,
        "2 kg of water, 1500 kcal",
        (
            Setting("summit_water_g", 2000, "g", 0, 6000),
            Setting("summit_lunch_kcal", 1500, "kcal", 0, 5000),
        ),
        on_glaciers=True,
    ),
    Rule(
        "hot_meal_after_summit",
        "On the night after a summit, people eat a set that only needs boiling water.",
        "nights",
        _PREFERENCE,
        _PRACTICE,
        on_glaciers=True,
    ),
    Rule(
        "food_facts_missing",
        "The request gives the energy, simmering, number of dinners and lunches of its night "
        "sets, and the water melted and boiled.",
        "sets or facts",
        _ADVISORY,
        _PRACTICE,
        on_glaciers=True,
    ),
)
