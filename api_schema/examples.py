"""Requests that the published description shows; the same stand in the folder of examples."""

from __future__ import annotations

from typing import Any, Final

SMALLEST_REQUEST: Final[dict[str, Any]] = {
    "reference": "booking 1001",
    "start_date": "2027-05-20",
    "route": {
        "places": [
            {"place_id": "road", "elevation": "1450 m"},
            {
                "place_id": "camp-1",
                "elevation": "2050 m",
                "night": "-8 degC",
                "storm_nights": 1,
            },
            {
                "place_id": "camp-2",
                "elevation": "2750 m",
                "night": "-12 degC",
                "storm_nights": 2,
            },
        ],
        "legs": [
            {
                "from": "road",
                "to": "camp-1",
                "distance": "9 km",
                "mode": "sled",
                "crevasse_hazard": "low",
            },
            {
                "from": "camp-1",
                "to": "camp-2",
                "distance": "7 km",
                "mode": "pack",
                "crevasse_hazard": "high",
            },
        ],
    },
    "calendar": [
        ["road", "camp-1", "road"],
        ["road", "camp-1"],
        ["camp-1", "camp-2", "camp-1"],
        ["camp-1", "camp-2"],
        ["camp-2"],
        ["camp-2", "camp-1", "road"],
    ],
    "roster": [
        {"person_id": "lead", "body_mass": "82 kg", "pack_cap": "27 kg", "sled_cap": "40 kg"},
        {"person_id": "second", "body_mass": "70 kg", "pack_cap": "24 kg", "sled_cap": "36 kg"},
        {"person_id": "third", "body_mass": "61 kg", "pack_cap": "20 kg"},
    ],
    "gear": [
        {
            "item_id": "tent",
            "purpose": "shelter",
            "shelter_places": 3,
            "mass": "3.9 kg",
            "volume": "9 L",
            "needed": "every_night",
        },
        {
            "item_id": "stove",
            "purpose": "stove",
            "mass": "480 g",
            "volume": "1 L",
            "needed": "every_night",
            "count": 2,
        },
        {
            "item_id": "rope",
            "purpose": "rope",
            "mass": "3.2 kg",
            "volume": "5 L",
            "needed": "every_trip",
        },
        {
            "item_id": "shelter-bag",
            "purpose": "shelter",
            "shelter_places": 3,
            "mass": "900 g",
            "needed": "every_trip",
        },
        {"item_id": "pot", "purpose": "pot", "mass": "600 g", "needed": "every_night"},
        {
            "item_id": "rescue-kit",
            "purpose": "rescue_kit",
            "mass": "450 g",
            "needed": "every_trip",
            "count": 2,
        },
        {"item_id": "shovel", "purpose": "shovel", "mass": "700 g", "needed": "every_trip"},
        {
            "item_id": "medical-kit",
            "purpose": "medical_kit",
            "mass": "900 g",
            "needed": "every_trip",
        },
        {"item_id": "map", "purpose": "navigation", "mass": "200 g", "needed": "every_trip"},
        {
            "item_id": "satellite",
            "purpose": "communicator",
            "communicator_kind": "satellite",
            "mass": "150 g",
            "needed": "every_trip",
        },
        {
            "item_id": "radio",
            "purpose": "communicator",
            "communicator_kind": "radio",
            "mass": "250 g",
            "needed": "every_trip",
        },
        {
            "item_id": "lighter",
            "purpose": "lighter",
            "mass": "20 g",
            "needed": "every_night",
            "count": 3,
        },
    ],
}
"""The least that gives a useful plan on a glacier: route, calendar, three people, twelve items."""

TOLD_CONDITIONS: Final[dict[str, Any]] = SMALLEST_REQUEST | {
    "reference": "booking 1002",
    "conditions": {
        "fuel_kind": "white_gas",
        "stove_efficiency": "35 %",
        "snow_temperature": "-12 degC",
        "melted_water": "2.5 L",
        "boiled_water": "2 L",
        "wind": "40 km/h",
        "high_latitude": True,
        "sleeping_rule": "cautious",
        "travel_method": "munter",
        "travel_factor": 1.5,
    },
}
"""The same trip with what is known of snow, stove and weather."""

EMPTY_PLAN_CHECK: Final[dict[str, Any]] = {
    "request": SMALLEST_REQUEST,
    "plan": {"trips": [], "taken_along": []},
}
"""A check of a plan in which nobody carries anything; the answer lists all that is missing."""

SMALLEST_CALENDARS: Final[dict[str, Any]] = {
    "request": SMALLEST_REQUEST,
    "days": 8,
    "carries": {"most": 1},
    "seconds": 2,
}
"""Calendars of the smallest request with up to one carry on each leg, in the least time."""

SMALLEST_COMPARISON: dict[str, Any] = {
    "base": SMALLEST_REQUEST,
    "people": [{"person_id": "fourth", "body_mass": "75 kg", "pack_cap": "24 kg"}],
    "variants": [
        {"name": "two days later", "patch": {"start_date": "2027-05-22"}},
        {"name": "with a fourth", "edits": [{"edit": "add", "person_id": "fourth"}]},
        {
            "name": "the third carries less",
            "edits": [{"edit": "cap", "person_id": "third", "pack_cap": "19 kg"}],
        },
    ],
}

SMALLEST_GEAR_LIST: Final = "Item,Mass (kg),Quantity,Needed\nTent,3.9,1,every night\n"
"""A gear list as CSV."""

SMALLEST_ROSTER: Final = "Name,Pack cap (kg)\nLead,27\nSecond,24\n"
"""A roster as CSV."""

SMALLEST_TRACK: Final = (
    '<gpx version="1.1"><trk><name>Glacier</name><trkseg>'
    '<trkpt lat="60.00" lon="10.0"><ele>1450</ele></trkpt>'
    '<trkpt lat="60.01" lon="10.0"><ele>1530</ele></trkpt>'
    "</trkseg></trk></gpx>"
)
"""A route as GPX."""

STORED_ROUTE: Final[dict[str, Any]] = {
    "title": "Two camps",
    "route": SMALLEST_REQUEST["route"],
}
"""A route for the library."""

STORED_ROSTER: Final[dict[str, Any]] = {
    "title": "The three of spring",
    "reference": "booking 1001",
    "roster": SMALLEST_REQUEST["roster"],
}
"""A roster for the library, which goes with its booking."""

STORED_GEAR_LIST: Final[dict[str, Any]] = {
    "title": "A team of three",
    "gear": SMALLEST_REQUEST["gear"],
}
"""A gear list for the library."""

STORED_MENU: Final[dict[str, Any]] = {
    "title": "Dried",
    "menu": {
        "night_sets": [
            {
                "set_id": "dried",
                "mass": "980 g",
                "packaging": "60 g",
                "lunch": "350 g",
                "volume": "2.3 L",
                "fuel": "170 mL",
                "contains": [],
            },
            {
                "set_id": "storm",
                "mass": "690 g",
                "volume": "1.6 L",
                "fuel": "150 mL",
                "contains": [],
                "storm": True,
            },
        ]
    },
}
"""A menu for the library."""
