"""The view of a plan's caches: what stands alone, from when to when, with poles and labels."""

import csv
import io
from typing import Any

from fastapi.testclient import TestClient

from api_schema.cache_answer import CachesAnswer
from service.reports.caches import CLASSES, caches_of, caches_table, poles_at_once
from tests.service.wire import wire

REQUEST: dict[str, Any] = {
    "reference": "booking 7",
    "start_date": "2028-02-28",
    "route": {
        "places": [
            {"place_id": "road", "elevation": "1000 m"},
            {"place_id": "pit", "name": "the pit", "kind": "cache_site", "elevation": "1400 m"},
            {"place_id": "camp", "elevation": "1500 m"},
        ],
        "legs": [
            {"from": "road", "to": "pit", "mode": "pack"},
            {"from": "pit", "to": "camp", "mode": "pack"},
        ],
    },
    "calendar": [
        ["road", "pit", "road"],
        ["road", "pit", "camp"],
        ["camp", "pit", "camp"],
        ["camp", "pit", "road"],
    ],
    "roster": [
        {"person_id": "one", "pack_cap": "25 kg"},
        {"person_id": "other", "pack_cap": "25 kg"},
    ],
    "gear": [{"item_id": "tent", "mass": "3 kg", "volume": "5 L", "needed": "every_night"}],
    "menu": {
        "night_sets": [
            {
                "set_id": "meal",
                "mass": "1 kg",
                "packaging": "100 g",
                "lunch": "400 g",
                "volume": "2 L",
                "fuel": "200 mL",
            }
        ]
    },
    "fuel": {
        "containers": [
            {"container_id": "can", "content": "400 mL", "tare": "100 g", "volume": "0.5 L"}
        ]
    },
}


def _unit(unit_id: str, count: int, each_kg: float, each_l: float = 1.0) -> dict[str, Any]:
    return {
        "unit_id": unit_id,
        "name": None,
        "count": count,
        "each_kg": each_kg,
        "each_l": each_l,
    }


def _outcome(*stock: tuple[int, str, list[dict[str, Any]]]) -> dict[str, Any]:
    entries = [{"day": day, "place": place, "units": units} for day, place, units in stock]
    return {"reference": "booking 7", "plan": {"stock": entries}}


def _told(request: dict[str, Any], outcome: dict[str, Any]) -> list[dict[str, Any]]:
    return [wire(cache) for cache in caches_of(request, outcome)]


FOOD, CAN, OPEN = _unit("all/meal", 2, 1.0, 2.0), _unit("all/can", 1, 0.38), _unit("rope", 1, 3.0)
FULL = _outcome(
    (0, "road", [FOOD, CAN, OPEN]),
    (1, "road", [OPEN]),
    (1, "pit", [FOOD, CAN]),
    (2, "pit", [FOOD, CAN]),
    (2, "camp", [OPEN]),
    (3, "pit", [_unit("all/meal", 1, 1.0), _unit("trash/camp/1-1", 1, 0.2)]),
    (3, "camp", [OPEN]),
    (4, "road", [FOOD, CAN, OPEN]),
)


def test_a_cache_lasts_while_the_same_things_stand_alone() -> None:
    """Two nights with the same contents are one cache; what is left of them is another."""
    caches = _told(REQUEST, FULL)
    dates = [(c["place"], c["left_date"], c["pick_up_date"], c["nights"]) for c in caches]
    assert dates == [
        ("pit", "2028-02-28", "2028-03-01", 2),
        ("pit", "2028-03-01", "2028-03-02", 1),
    ]


def test_contents_are_parted_and_weighed() -> None:
    """Food, fuel, gear and waste are apart, and the cache weighs what its units weigh."""
    first, second = _told(REQUEST, FULL)
    assert [[u["unit_id"] for u in first[word]] for word in CLASSES] == [
        ["all/meal"],
        ["all/can"],
        [],
        [],
    ]
    assert (first["total_kg"], first["total_l"]) == (2.38, 5.0)
    assert [u["unit_id"] for u in second["waste"]] == ["trash/camp/1-1"]


def test_opened_and_empty_containers_are_fuel() -> None:
    """A container stays with the fuel whatever is left in it."""
    units = [_unit("all/can/open-1", 1, 0.2), _unit("all/can/empty-1", 1, 0.1)]
    (cache,) = _told(REQUEST, _outcome((2, "pit", units)))
    assert cache["fuel"] == units
    assert not cache["gear"]


def test_fuel_in_the_gear_is_fuel_on_the_label() -> None:
    """A canister among the gear is listed with the fuel, and the label says so."""
    gas = {"item_id": "gas", "mass": "350 g", "needed": "every_night", "purpose": "fuel"}
    request = {**REQUEST, "gear": [*REQUEST["gear"], gas]}
    units = [_unit("gas", 2, 0.35)]
    (cache,) = _told(request, _outcome((2, "pit", units)))
    assert (cache["fuel"], cache["gear"]) == (units, [])
    assert "fuel containers: yes" in cache["label"]


def test_a_label_says_whose_it_is_and_when_they_come_back() -> None:
    """A label has reference, both dates, the classes of contents and whether fuel is there."""
    first, second = _told(REQUEST, FULL)
    assert first["label"] == (
        "booking 7 | left 2028-02-28 | pick-up 2028-03-01 | food, fuel | fuel containers: yes | "
        "leader, contact and permit: ____"
    )
    assert "| food, waste | fuel containers: no |" in second["label"]


def test_without_dates_a_label_counts_days() -> None:
    """Where the request has no start date the label names days of the calendar."""
    undated = {name: value for name, value in REQUEST.items() if name != "start_date"}
    label = _told(undated, FULL)[0]["label"]
    assert "left day 1 | pick-up day 3" in label


def test_poles_are_those_told_else_two() -> None:
    """A small cache has two poles unless the request tells how many; each has a label."""
    told = {**REQUEST, "route": {**REQUEST["route"]}}
    told["route"]["places"] = [
        {**place, **({"cache": {"poles": 3}} if place["place_id"] == "pit" else {})}
        for place in REQUEST["route"]["places"]
    ]
    plain, marked = caches_of(REQUEST, FULL), caches_of(told, FULL)
    assert (poles_at_once(plain), sum(cache.labels for cache in plain)) == (2, 4)
    assert (poles_at_once(marked), sum(cache.labels for cache in marked)) == (3, 6)


def test_poles_that_the_plan_has_there_are_counted() -> None:
    """Marker poles that stand in a cache are told beside those that it needs."""
    pole = {
        "item_id": "pole",
        "mass": "300 g",
        "volume": "0.5 L",
        "count": 3,
        "needed": "at_place",
        "up_to": "pit",
        "purpose": "marker_pole",
    }
    request = {**REQUEST, "gear": [*REQUEST["gear"], pole]}
    units = [FOOD, _unit("pole", 1, 0.3)]
    (cache,) = _told(request, _outcome((1, "pit", units)))
    assert (cache["poles"], cache["poles_there"]) == (2, 1)
    assert cache["gear"] == units[1:]


def test_what_stands_at_the_start_or_with_sleepers_is_no_cache() -> None:
    """The start place and a camp with people asleep in it are left out."""
    assert _told(REQUEST, _outcome((1, "road", [FOOD]), (2, "camp", [FOOD]))) == []


def test_the_table_has_a_line_for_each_kind_of_unit() -> None:
    """As a table each kind of unit has its line, with the class that it is in."""
    rows = caches_table(caches_of(REQUEST, FULL)).as_rows()
    assert [(row["class"], row["unit_id"], row["kg"]) for row in rows] == [
        ("food", "all/meal", 2.0),
        ("fuel", "all/can", 0.38),
        ("food", "all/meal", 1.0),
        ("waste", "trash/camp/1-1", 0.2),
    ]


def test_the_view_tells_what_the_stock_tells(caller: TestClient) -> None:
    """What a solved plan has in the pit on a night is in the view, as JSON and as CSV."""
    answer = caller.post("/v1/plans", json=REQUEST, headers={"Prefer": "wait=50"})
    assert answer.json()["outcome_kind"] == "solved", answer.text
    address = f"/v1/plans/{answer.json()['plan_id']}/caches"
    seen = caller.get(address)
    told = CachesAnswer.model_validate_json(seen.content)
    stock = answer.json()["outcome"]["plan"]["stock"]
    in_pit = {e["day"]: e["kg"] for e in stock if e["place"] == "pit" and e["units"]}
    assert in_pit
    assert {
        day: cache.total_kg
        for cache in told.caches
        for day in range(cache.left_day, cache.pick_up_day)
    } == in_pit
    rows = list(csv.DictReader(io.StringIO(caller.get(f"{address}?format=csv").text)))
    assert round(sum(float(row["kg"]) for row in rows), 3) == round(
        sum(cache.total_kg for cache in told.caches), 3
    )


def test_a_plan_that_is_not_there_has_no_caches(caller: TestClient) -> None:
    """The view of an unknown plan is a problem document."""
    answer = caller.get("/v1/plans/plan_01m894y1x3y07966fb6kk0wj7j/caches")
    assert (answer.status_code, answer.json()["code"]) == (404, "not_found")
