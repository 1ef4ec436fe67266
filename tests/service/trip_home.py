"""A followed plan of three people in two kitchens, written by hand, to report on.

Three nights at one camp: two people of `all` and one of `other` eat a set a night, 200 mL each.
"""

from __future__ import annotations

import copy
from typing import Any

from api_schema.report_answer import FuelReportAnswer, TripReportAnswer
from service.translate.read.report_facts import Line, ReadReport
from service.translate.read.trip_report import read_report
from service.translate.write.after.report import write_report
from tests.service.one_night_out import REQUEST as ONE_NIGHT

_PEOPLE = (("ann", "all"), ("ben", "all"), ("cho", "other"))


def _request() -> dict[str, Any]:
    request = copy.deepcopy(ONE_NIGHT)
    kit = request["roster"][0]["personal_kit"]
    request["roster"] = [
        {"person_id": name, "pack_cap": "30 kg", "cook_group": group, "personal_kit": kit}
        for name, group in _PEOPLE
    ]
    request["sleds"] = []
    request["calendar"] = [["road", "camp"], ["camp"], ["camp"], ["camp", "road"]]
    request["route"]["legs"] = [
        {"from": "road", "to": "camp", "mode": "pack", "hours_outbound": "5 h", "distance": "4 km"}
    ]
    meal = request["menu"]["night_sets"][0]
    storm = {"set_id": "storm", "cook_group": "all", "storm": True, "sets_per_bag": 2}
    request["menu"]["night_sets"].append(meal | storm | {"fuel": "150 mL"})
    return request


REQUEST = _request()


def _unit(unit_id: str, count: int, each_kg: float = 1.0) -> dict[str, Any]:
    return {"unit_id": unit_id, "count": count, "each_kg": each_kg}


def _trip(day: int, here: str, there: str, direction: str) -> dict[str, Any]:
    return {
        "day": day,
        "step": 1,
        "from": here,
        "to": there,
        "leg_id": "leg-1",
        "direction": direction,
        "loads": [
            {"person_id": name, "pack_kg": 20.0, "sled_kg": 0.0, "total_kg": 20.0}
            for name, _ in _PEOPLE
        ],
    }


PLAN: dict[str, Any] = {
    "taken_along": [
        _unit("all/meal", 8),
        _unit("other/meal", 4),
        _unit("all/storm", 2, 2.0),
        _unit("all/can", 3, 0.85),
        _unit("other/can", 2, 0.85),
        _unit("rope", 1, 3.0),
    ],
    "comes_down": [
        _unit("all/meal", 2),
        _unit("other/meal", 1),
        _unit("all/storm", 2, 2.0),
        _unit("all/can", 1, 0.85),
        # Of the second can 320 mL are burnt; 680 mL at 0.7 kg/L are 476 g, in a can of 150 g.
        _unit("all/can/open-2", 1, 0.626),
        _unit("all/can/empty-1", 1, 0.15),
        _unit("other/can", 1, 0.85),
        _unit("other/can/open-1", 1, 0.388),
    ],
    "used": [
        {"day": day, "place": "camp", "cook_group": group, "people": people, "set_id": "meal"}
        for day in (1, 2, 3)
        for group, people in (("all", 2), ("other", 1))
    ],
    "trips": [_trip(1, "road", "camp", "outbound"), _trip(4, "camp", "road", "homeward")],
}
WATER = [
    {"figure_id": name, "about": {"place_id": "camp"}, "value": litres}
    for name, litres in (("water_melted", 3.0), ("water_boiled", 1.0))
]
OUTCOME: dict[str, Any] = {
    "reference": "booking 7",
    "plan": PLAN,
    "rest": None,
    "requirements": WATER,
    "cautions": [{"caution_id": "fuel_use", "text": "Measure it."}],
}


def line(**changed: Any) -> Line:
    """The plan as the first and only one of its line, with some of it changed."""
    plain: dict[str, Any] = {
        "plan_id": "plan_a",
        "document": REQUEST,
        "outcome": OUTCOME,
        "first_plan_id": "plan_a",
        "first_outcome": OUTCOME,
        "is_whole": True,
    }
    return Line(**(plain | changed))


def report(**body: Any) -> ReadReport:
    """A report on the plan."""
    return read_report(line(), body)


def written(**body: Any) -> TripReportAnswer:
    """The report on the plan, as the service answers it."""
    return write_report(report(**body))


def kitchen(answer: TripReportAnswer, name: str = "all") -> FuelReportAnswer:
    """The fuel of a kitchen."""
    return next(one for one in answer.fuel if one.cook_group == name)


def rates(answer: TripReportAnswer) -> dict[str, tuple[str | float, str | float | None]]:
    """Value and planned value of each rate, by its pointer."""
    return {rate.pointer: (rate.value, rate.planned) for rate in answer.rates}


CAN = {"unit_id": "all/can", "full": 1, "open": ["400 mL"]}
"""What came home of the cans of `all`: 1600 of 3000 mL did not."""
