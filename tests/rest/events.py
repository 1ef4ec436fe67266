"""Things that go wrong on an expedition, as the states that a party would send of them."""

from __future__ import annotations

from typing import Any

State = dict[str, Any]

ALL_RESERVES = [
    {"reserve": kind, "reason": "used for what it is held for"} for kind in ("storm", "descent")
]
"""An order of letting go that a leader may give beforehand: reserves, the storm's first."""


def waived(*rule_ids: str) -> list[State]:
    """An order of letting go by rules."""
    return [{"rule_id": rule_id, "reason": "the leader goes on"} for rule_id in rule_ids]


def evening(day: int, **more: Any) -> State:
    """A state counted in the evening of a day."""
    return {"at": {"day": day, "moment": "evening"}, **more}


def lost(place: str, **units: int) -> list[State]:
    """Units lost at a place; `__` stands for the stroke of a unit id, `_` for a hyphen."""
    return [
        {"place": place, "unit_id": name.replace("__", "/").replace("_", "-"), "count": count}
        for name, count in units.items()
    ]


DOWN_AT_ONCE = [
    {"places": ["road", "cache-1", "road"]},
    ["road", "cache-1", "camp-1"],
    ["camp-1", "cache-1", "camp-1"],
    ["camp-1", "cache-2", "camp-1"],
    ["camp-1", "cache-2", "camp-2"],
    ["camp-2", "cache-2", "camp-2"],
    ["camp-2", "cache-2", "camp-1"],
    ["camp-1", "cache-1", "road"],
]
"""The calendar of the expedition for three as it was travelled for 6 days, and then down."""

WITHOUT_THE_REST_DAY = [
    *DOWN_AT_ONCE[:6],
    ["camp-2", "camp-3", "camp-2"],
    ["camp-2", "camp-3"],
    ["camp-3"],
    ["camp-3", "summit", "camp-3"],
    ["camp-3", "camp-2"],
    ["camp-2", "cache-2", "camp-1", "cache-1", "road"],
]
"""The same without the rest day 8."""

TURNED_BACK = [
    *DOWN_AT_ONCE[:6],
    ["camp-2"],
    ["camp-2", "camp-3", "camp-2"],
    ["camp-2", "camp-3"],
    ["camp-3"],
    ["camp-3", "summit", "camp-3"],
    ["camp-3", "camp-2"],
    ["camp-2", "cache-2", "camp-1", "cache-1", "road"],
]
"""The same with the carry of day 7 made on day 8, because a storm turned it back."""

GUEST = {
    "person_id": "guest",
    "body_mass": "70 kg",
    "pack_cap": "22 kg",
    "pack_volume": "85 L",
    "water": "1.8 L",
    "rope_team": "rope-1",
    "cook_group": "kitchen",
    "personal_kit": "main",
}
"""Somebody of another party, who joins with kit of their own."""

EVENTS: dict[str, State] = {
    "01 storm at a camp": evening(6, wait_nights=1, letting_go=ALL_RESERVES),
    "02 storm on a carry, turned back": evening(7, calendar=TURNED_BACK),
    "03 longer storm at the high camp": evening(10, wait_nights=2, letting_go=ALL_RESERVES),
    "06 sled lost with what was on it": evening(
        6, sleds_lost=["sled-1"], lost=lost("camp-2", kitchen__low=3, kitchen__bottle=1)
    ),
    "07 pack lost with a sleeping bag": evening(
        7, lost=lost("camp-2", leader__sleeping_bag=1, leader__pack=1)
    ),
    "08 cache dug up by birds": evening(
        4, lost=lost("cache-2", kitchen__low=6, kitchen__mid=3), letting_go=ALL_RESERVES
    ),
    "09 cache not found": evening(4, lost=lost("cache-2", kitchen__low=15, kitchen__mid=9)),
    "10 cache melted out, food wet": evening(4, lost=lost("cache-2", kitchen__mid=1)),
    "11 stove failed": evening(
        7,
        lost=lost("camp-2", stove_gas=1),
        letting_go=waived("stoves_enough", "stove_survives_loss", "stoves_kept_apart"),
    ),
    "12 fuel leaked into food": evening(
        8, lost=lost("camp-2", kitchen__storm=3, kitchen__bottle=1), letting_go=ALL_RESERVES
    ),
    "13 fuel burn above plan": evening(
        6,
        fuel_left=[{"cook_group": "kitchen", "place": "camp-2", "amount": "6.2 L"}],
        letting_go=ALL_RESERVES,
    ),
    "14 tent destroyed": evening(7, lost=lost("camp-2", tent=1)),
    "16 weak climber goes on": evening(
        7, people=[{"person_id": "third", "load_limit": "18 kg", "reason": "weak after illness"}]
    ),
    "17 ahead of schedule": evening(7, calendar=WITHOUT_THE_REST_DAY),
    "18 behind by weather": evening(9, wait_nights=1, letting_go=ALL_RESERVES),
    "21 a person joins": evening(
        12,
        joins=[
            {"person": GUEST, "place": "camp-2", "brings": [{"unit_id": "bivy-shelter"}]},
        ],
        letting_go=ALL_RESERVES,
    ),
    "22 stock count differs": evening(
        6,
        counts=[
            {"place": "camp-2", "unit_id": "kitchen/low", "low": 11, "high": 12},
            {"place": "camp-1", "unit_id": "kitchen/storm", "count": 3},
        ],
        letting_go=ALL_RESERVES,
    ),
    "23 leg closed": evening(6, calendar=DOWN_AT_ONCE),
    "24 an order to leave": evening(6, calendar=DOWN_AT_ONCE),
    "25 communicator lost": evening(7, lost=lost("camp-2", messenger=1)),
    "26 cold injury": evening(
        10, people=[{"person_id": "second", "load_limit": "23 kg", "reason": "frostbitten fingers"}]
    ),
    "27 medical kit left at the road": evening(
        7,
        counts=[
            {"place": "camp-2", "unit_id": "medical", "count": 0},
            {"place": "road", "unit_id": "medical", "count": 1},
        ],
    ),
    "28 leader ill": evening(
        7, people=[{"person_id": "leader", "load_limit": "26 kg", "reason": "altitude illness"}]
    ),
    "29 a shelter is left behind": evening(9, lost=lost("camp-3", bivy_shelter=1)),
}
"""By number and name, what a party of three sends. Numbers are those of the page of events."""
