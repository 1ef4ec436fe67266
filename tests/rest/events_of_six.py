"""What goes wrong with a party that has two guides, as the states that it would send."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from tests.rest.events import State, evening

EXAMPLE = Path(__file__).parents[2] / "examples" / "guided-six.json"
_CALENDAR: list[Any] = json.loads(EXAMPLE.read_text(encoding="utf-8"))["calendar"]

DOWN_IN_TWO_CARRIES: list[Any] = [
    *_CALENDAR[:9],
    ["camp-3", "cache-2", "camp-2", "cache-2", "camp-3"],
    ["camp-3", "cache-2", "camp-2"],
    ["camp-2", "camp-1", "camp-2"],
    ["camp-2", "camp-1"],
    ["camp-1", "cache-1", "strip", "cache-1", "camp-1"],
    ["camp-1", "cache-1", "strip"],
    ["strip"],
]
"""Those who stay bring the whole camp of six down: three people go every leg twice."""

DOWN = [{"reserve": kind, "reason": "they go down"} for kind in ("storm", "descent")]

EVENTS_OF_SIX: dict[str, State] = {
    "04 client evacuated with a companion": evening(
        9, evacuation={"person_id": "client-2", "how": "walks"}
    ),
    "04 the others bring the camp down": evening(
        9,
        evacuation={"person_id": "client-2", "how": "walks"},
        calendar=DOWN_IN_TWO_CARRIES,
        letting_go=DOWN,
    ),
    "05 a party of two": evening(
        9, evacuation={"person_id": "client-2", "how": "walks", "companions": ["guide-1"]}
    ),
    "15 the team splits": evening(
        9,
        evacuation={
            "person_id": "client-1",
            "how": "not_hurt",
            "companions": ["guide-1", "client-2"],
        },
        calendar=DOWN_IN_TWO_CARRIES,
        letting_go=DOWN,
    ),
    "04 hauled from the second camp": evening(
        5, evacuation={"person_id": "client-2", "how": "hauled"}
    ),
    "20 flight out is late": evening(18, wait_nights=3),
    "06 a sled breaks on day 6": evening(6, sleds_lost=["sled-1"]),
}
"""By number and name. Numbers are those of the page of events."""

SECOND_FLIGHT: State = {
    "flight_id": "in-2",
    "direction": "fly_in",
    "payload": "300 kg",
    "seats": 1,
}


def _flown_in() -> State:
    """The smallest request from an airstrip: three people by two flights in, and out again."""
    request: State = json.loads(
        (EXAMPLE.parent / "smallest-request.json").read_text(encoding="utf-8")
    )
    request["route"]["places"][0] |= {"kind": "airstrip"}
    for person in request["roster"]:
        person["flying_mass"] = "95 kg"
    request["reserves"] = [{"place": "road", "nights": 3, "kind": "base_wait"}]
    first = {**SECOND_FLIGHT, "flight_id": "in-1", "payload": "500 kg", "seats": 2}
    out = [
        {**one, "flight_id": f"out-{number}", "direction": "fly_out"}
        for number, one in enumerate((SECOND_FLIGHT, first), start=1)
    ]
    fuel = [
        {
            **SECOND_FLIGHT,
            "flight_id": f"{way}-fuel",
            "direction": f"fly_{way}",
            "seats": 0,
            "loaded_by_operator": True,
        }
        for way in ("in", "out")
    ]
    request["flights"] = [fuel[0], first, SECOND_FLIGHT, *out, fuel[1]]
    return request


FLOWN_IN = _flown_in()
"""An expedition that has not left yet: one of its flights will be cancelled."""
