"""Loads made by hand, end to end: a solved plan, pins of three units to others, solved again."""

from __future__ import annotations

import copy
from typing import Any

from fastapi.testclient import TestClient

from api_schema.examples import SMALLEST_REQUEST

WAIT = {"Prefer": "wait=50"}
Document = dict[str, Any]


def solved(caller: TestClient, request: Document) -> Document:
    """The outcome of a request."""
    answer = caller.post("/v1/plans", json=request, headers=WAIT)
    assert answer.status_code == 201, answer.text
    return answer.json()["outcome"]


def _to_others(plan: Document, count: int) -> list[Document]:
    """Pins of so many shared things in packs, each to somebody else of its trip."""
    pins: list[Document] = []
    shared = {item["item_id"] for item in SMALLEST_REQUEST["gear"]} - {"rescue-kit"}
    for trip in plan["trips"]:
        for load in trip["loads"]:
            for unit in load["pack"]:
                if unit["unit_id"] in shared - {pin["unit_id"] for pin in pins}:
                    others = [o["person_id"] for o in trip["loads"] if o is not load]
                    pin = {"unit_id": unit["unit_id"], "person_id": others[0], "in": "pack"}
                    pins.append(pin | {"day": trip["day"], "step": trip["step"]})
                    break
    return pins[:count]


def _carried(plan: Document, pin: Document) -> int:
    return sum(
        unit["count"]
        for trip in plan["trips"]
        if (trip["day"], trip["step"]) == (pin["day"], pin["step"])
        for load in trip["loads"]
        if load["person_id"] == pin["person_id"]
        for unit in load[pin["in"]]
        if unit["unit_id"] == pin["unit_id"]
    )


def test_three_units_pinned_to_others_ride_with_them(caller: TestClient) -> None:
    """The new plan keeps the three pins, echoes them, and passes the check like any other."""
    before = solved(caller, SMALLEST_REQUEST)["plan"]
    pins = _to_others(before, 3)
    assert len(pins) == 3
    assert [_carried(before, pin) for pin in pins] == [0, 0, 0]
    request = copy.deepcopy(SMALLEST_REQUEST) | {"pins": pins}
    outcome = solved(caller, request)
    assert outcome["outcome"] == "solved", outcome
    assert all(_carried(outcome["plan"], pin) >= 1 for pin in pins)
    assert [(pin["pointer"], pin["unit_id"]) for pin in outcome["plan"]["pins"]] == [
        (f"/pins/{number}", pin["unit_id"]) for number, pin in enumerate(pins)
    ]
    assert all(pin["carried"] >= pin["count"] == 1 for pin in outcome["plan"]["pins"])
    sent = {"request": request, "plan": before}
    check = caller.post("/v1/plan-checks", json=sent).json()["check"]
    assert [finding["rule_id"] for finding in check["findings"]] == ["pins_kept"] * 3
    sent = {"request": request, "plan": outcome["plan"]}
    assert caller.post("/v1/plan-checks", json=sent).json()["check"]["findings"] == []


def test_pins_that_clash_are_refused_by_name(caller: TestClient) -> None:
    """Both radios of a party in one pack could be lost at once; the map is not blamed."""
    pins = [
        {"unit_id": unit_id, "person_id": "third", "day": 3, "step": 1}
        for unit_id in ("map", "satellite", "radio")
    ]
    outcome = solved(caller, copy.deepcopy(SMALLEST_REQUEST) | {"pins": pins})
    assert outcome["outcome"] == "infeasible"
    (conflict,) = outcome["conflicts"]
    assert conflict["rule_id"] == "communicator_survives_loss"
    assert conflict["message"].startswith(
        "Pins 2 and 3 cannot all be kept: 1 satellite in the pack"
    )
    assert [one["pointer"] for one in (conflict, *conflict["more"])] == ["/pins/1", "/pins/2"]
    assert conflict["amount"] == 1
