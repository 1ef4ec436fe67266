"""What came home after an expedition, read against the plan that was followed.

More than was ever taken, and units, trips or people that the plan does not have, are faults at
their place in the report.
"""

from __future__ import annotations

from typing import Any

from pydantic import ValidationError

from api_schema.report import TripReportRequest
from service.errors import RequestFaults
from service.translate.read.gone_on_the_way import on_the_way
from service.translate.read.replans import read_replan
from service.translate.read.report_days import examine_days
from service.translate.read.report_facts import Line, ReadReport
from service.translate.read.report_stores import examine_stores
from service.translate.read.requests import read_plan_request
from service.translate.read.wire_faults import wire_faults


def read_report(line: Line, body: dict[str, Any]) -> ReadReport:
    """The report of a body on a line of plans; raises RequestFaults with every fault of it."""
    try:
        asked = TripReportRequest.model_validate(body)
    except ValidationError as error:
        raise RequestFaults(wire_faults(error, TripReportRequest)) from None
    if "state" in line.document:
        read = read_replan(line.document).read
    else:
        read = read_plan_request(line.document)
    rest = line.outcome.get("rest") or {}
    report = ReadReport(
        line,
        read,
        asked,
        {one["unit_id"]: one["count"] for one in line.outcome["plan"]["taken_along"]},
        on_the_way(rest.get("settled", ()), line.states),
    )
    examine_stores(report)
    examine_days(report)
    if report.faults:
        raise RequestFaults(tuple(report.faults))
    return report
