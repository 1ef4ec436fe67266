"""A request and a plan for it that are small enough to add up by hand."""

from typing import Any

from solver.outcome import Solved, SolveRecord
from solver.plan import GoalValue, Load, NightStock, Plan, Stowed, TripLoads

REQUEST: dict[str, Any] = {
    "reference": "booking 7",
    "title": "One night out",
    "start_date": "2028-02-28",
    "route": {
        "places": [
            {"place_id": "road", "elevation": "1000 m"},
            {"place_id": "camp", "elevation": "1500 m"},
        ],
        "legs": [{"from": "road", "to": "camp", "mode": "sled", "sled_factor_outbound": "80 %"}],
    },
    "calendar": [["road", "camp"], ["camp", "road"]],
    "roster": [
        {
            "person_id": "solo",
            "pack_cap": "20 kg",
            "sled_cap": "20 kg",
            "total_cap": "30 kg",
            "water": "1 L",
            "first_lunch": "300 g",
            "personal_kit": [
                {"item_id": "bag", "mass": "1.5 kg", "volume": "10 L", "needed": "every_night"}
            ],
        }
    ],
    "sleds": [
        {
            "sled_id": "red",
            "hauler": "solo",
            "tare": "3 kg",
            "mass_limit": "20 kg",
            "volume": "90 L",
        }
    ],
    "gear": [
        {
            "item_id": "rope",
            "name": "glacier rope",
            "mass": "3 kg",
            "volume": "5 L",
            "needed": "every_trip",
            "in_use_on": ["sled"],
        }
    ],
    "menu": {
        "night_sets": [
            {
                "set_id": "meal",
                "mass": "1 kg",
                "packaging": "100 g",
                "lunch": "400 g",
                "volume": "2 L",
                "fuel": "200 mL",
                "energy_kcal": 4000,
            }
        ]
    },
    "fuel": {
        "density": "0.7 kg/L",
        "margin": "10 %",
        "containers": [
            {
                "container_id": "can",
                "name": "can",
                "content": "1 L",
                "tare": "150 g",
                "volume": "1.1 L",
            }
        ],
    },
    "waste": {"per_person_night": "0 g", "trash_density": "0.2 kg/L"},
}

BAG = Stowed("solo/bag", 1, 1500, 10_000)
ROPE = Stowed("rope", 1, 3000, 5_000)
ROPE_IN_USE = Stowed("rope", 1, 0, 0)
MEAL = Stowed("all/meal", 1, 1000, 2_000)
CAN = Stowed("all/can", 1, 850, 1_100)
# The night burns 200 mL and 10 %; 780 mL are left, 546 g at 0.7 kg/L, in a can of 150 g.
OPEN_CAN = Stowed("all/can/open-1", 1, 696, 1_100)
TRASH = Stowed("trash/camp/1-1", 1, 100, 500)

PLAN = Plan(
    trips=(
        TripLoads(
            1, 1, "road", "camp", (Load("solo", 1000, 300, (BAG, ROPE_IN_USE), "red", (MEAL, CAN)),)
        ),
        TripLoads(
            2,
            1,
            "camp",
            "road",
            (Load("solo", 1000, 400, (BAG, ROPE_IN_USE, TRASH), "red", (OPEN_CAN,)),),
        ),
    ),
    stock=(
        NightStock(0, "road", (BAG, ROPE, MEAL, CAN)),
        NightStock(1, "camp", (BAG, ROPE, OPEN_CAN, TRASH)),
        NightStock(2, "road", (BAG, ROPE, OPEN_CAN, TRASH)),
    ),
)
RECORD = SolveRecord("by hand", 0, 0, (("all", 0.25),))
SOLVED = Solved(
    PLAN, (GoalValue("peak_load", 3032, 3000, proven=False, unit="1/10,000"),), 3200, RECORD
)
