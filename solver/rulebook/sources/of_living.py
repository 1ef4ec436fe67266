"""Which documents stand behind the rules of stoves, fuel, water, food and human waste."""

from __future__ import annotations

from solver.rulebook.sources.naming import Named, named

LIVING: Named = named(
    {
        "stove_needs_air": (
            (
                "carbon-monoxide-tents",
                "History",
                "dangerous in a tent within 30 minutes; 50 cm2 of opening, outlet high, inlet low",
            ),
            ("camp-medicine-guide", "carbon monoxide", "the same advice for camps"),
        ),
        "fuel_rate_in_band": (
            ("polar-manual", "p. 37", "500 mL per person and day"),
            ("polar-food-fuel", "", "500 mL per person and day"),
            ("polar-report-2012", "", "167 mL per person and day, measured by a pair"),
            ("polar-stove", "", "207 to 325 mL in winter"),
            ("backcountry-tips", "", "250 mL"),
            ("traverse-planning", "", "76 g of gas, with some open water"),
        ),
        "stove_works_in_cold": (
            (
                "gas-in-cold",
                "",
                "an inverted canister works to about -18 degC, measured on the fuel",
            ),
        ),
        "canister_upright_in_cold": (
            ("backpacking-forum", "", "upright canisters are poor below about -7 degC"),
        ),
        "weather_multiplies_fuel": (
            (
                "stove-basics",
                "",
                "cold, melting and wind can need three to four times the baseline",
            ),
        ),
        "fuel_stowed_rear": (
            ("polar-food-fuel", "", "at the rear of the sledge, away from food"),
            ("polar-report-2012", "", "a leak cost thirteen lunches; caps are checked at stops"),
        ),
        "container_fill_limited": (
            ("fuel-to-pack", "", "storage containers are filled to three quarters"),
            ("hiking-manual", "", "stove tanks are filled to three quarters"),
        ),
        "fuel_burns_cold_skin": (
            ("polar-food-fuel", "", "always gloves; cold fuel freezes skin at once"),
            ("stove-safety", "p. 5", "gloves for cold fuel"),
            ("cold-riding", "", "cold fuel freezes skin"),
        ),
        "stoves_kept_apart": (
            ("polar-weight", "", "spares are kept in separate places; stoves are not named"),
        ),
        "pumps_kept_apart": (
            ("polar-weight", "", "spares are kept in separate places; pumps are not named"),
        ),
        "stoves_enough": (
            ("polar-manual", "p. 50", "two stoves and spares"),
            ("polar-weight", "", "three stoves and six pumps for one team"),
        ),
        "water_enough": (
            ("mountain-manual", "Water Supply", "2.8 to 5.7 L per day"),
            ("cold-manual", "5-3", "at least 3.3 L per day"),
        ),
        "energy_on_target": (
            ("cold-manual", "5-1", "4000 kcal for hard work in the cold"),
            ("mountaineering-textbook", "expedition chapter", "3900 kcal"),
            ("appetite-high", "abstract", "intake fell by 1000 kcal at 5000-6000 m"),
            (
                "health-manual",
                "altitude",
                "need rises by 15 to 50 %; loss can be prevented below 5000 m",
            ),
        ),
        "food_mass_in_band": (
            ("mountaineering-textbook", "expedition chapter", "992 g per day"),
            ("outdoor-leader", "", "about 900 g per day, dry"),
            ("backcountry-tips", "", "907 to 1134 g per day"),
            ("polar-food-packing", "", "1200 g per day"),
        ),
        "menu_varied": (
            ("mountaineering-textbook", "expedition chapter", "plenty of variety"),
            ("polar-daily-bags", "", "six dinners in rotation"),
        ),
        "human_waste_carried_out": (
            ("faeces-review", "abstract", "a median of 128 g per day, twice that on much fibre"),
            ("high-peak-waste", "", "required from the middle camp down on one route"),
        ),
        "human_waste_containers_enough": (
            ("faeces-review", "abstract", "1.2 uses per day"),
            ("high-peak-waste", "", "a can of 28 by 23 cm takes 10 to 14 uses"),
        ),
    }
)
