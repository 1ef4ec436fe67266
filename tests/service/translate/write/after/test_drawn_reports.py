"""Drawn reports: refused for their faults, or written with rates that a request takes."""

from __future__ import annotations

import copy
from random import Random
from typing import Any

from api_schema.report_answer import TripReportAnswer
from service.errors import RequestFaults
from service.reports.after import report_table
from service.translate.read.report_facts import Line
from service.translate.read.requests import read_plan_request
from service.translate.read.trip_report import read_report
from service.translate.write.after.report import write_report
from tests.service.trip_home import OUTCOME, PLAN, REQUEST, line

_DRAWS = 250
_VOLUMES = ("0 mL", "1 mL", "300 mL", "0.3 L", "1 L", "999999999 L")
_TIMES = ("0 s", "1 min", "90 min", "24 h", "25 h")
_MASSES = ("0 g", "0.1 g", "480 g", "1 kg", "2 lb", "999999 kg")
_UNITS = ("all/meal", "other/meal", "all/storm", "all/can", "rope", "all/can/open-2")


def _body(chance: Random) -> dict[str, Any]:
    """A few entries in some of the lists, each in order or not."""
    few = (0, 0, 1, 2, 3)
    made = {
        "night_sets": lambda: {
            "unit_id": chance.choice(_UNITS[:3]),
            "bags": chance.choice(few),
            "sets": chance.choice(few),
        },
        "containers": lambda: {
            "unit_id": chance.choice(("all/can", "other/can")),
            "full": chance.choice(few),
            "open": [chance.choice(_VOLUMES) for _ in range(chance.randint(0, 2))],
        },
        "gone": lambda: {"unit_id": chance.choice(_UNITS)},
        "spilt": lambda: {
            "cook_group": chance.choice(("all", "other")),
            "amount": chance.choice(_VOLUMES),
        },
        "nights": lambda: {"place": chance.choice(("camp", "road")), "nights": chance.choice(few)},
        "hours": lambda: {"day": chance.choice((1, 2, 4)), "time": chance.choice(_TIMES)},
        "loads": lambda: {
            "person_id": chance.choice(("ann", "cho")),
            "day": chance.choice((1, 4)),
            "mass": chance.choice(_MASSES),
        },
        "weighed": lambda: {"unit_id": chance.choice(_UNITS), "mass": chance.choice(_MASSES)},
    }
    named = chance.sample(sorted(made), k=chance.randint(1, 3))
    return {name: [made[name]() for _ in range(chance.randint(1, 2))] for name in named}


def _without_menu() -> tuple[Any, Any]:
    """The line with a request that leaves the menu to the service."""
    bare = {name: part for name, part in REQUEST.items() if name != "menu"}
    set_id = read_plan_request(bare).problem.night_sets[0].set_id
    used = [row | {"set_id": set_id} for row in PLAN["used"]]
    return bare, OUTCOME | {"plan": PLAN | {"used": used}}


def _answer(followed: Line, body: dict[str, Any]) -> tuple[Line, TripReportAnswer] | None:
    """The report, None where it has faults."""
    try:
        return followed, write_report(read_report(followed, body))
    except RequestFaults:
        return None


def test_every_report_without_faults_gives_rates_that_a_request_takes():
    """Merged into the request, `next_request` reads without a fault, whatever was counted."""
    chance = Random(15)
    bare, outcome = _without_menu()
    lines = (line(), line(document=bare, outcome=outcome))
    answers = [_answer(chance.choice(lines), _body(chance)) for _ in range(_DRAWS)]
    in_order = [answer for answer in answers if answer is not None]
    for followed, answer in in_order:
        assert report_table(answer).as_csv()
        request = copy.deepcopy(followed.request)
        for name, part in answer.next_request.items():
            request[name] = request.get(name, {}) | part if isinstance(part, dict) else part
        read_plan_request(request)
    assert sum(bool(answer.rates) for _, answer in in_order) > _DRAWS // 20
    assert len(in_order) < _DRAWS // 2
