"""A body that was sent to another address than it was written for, or with a wrapper around it."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field

from pydantic import BaseModel

from api_schema.calendars_request import CalendarsRequest
from api_schema.comparison import ComparisonRequest
from api_schema.library_entry import GearListToStore, MenuToStore, RosterToStore, RouteToStore
from api_schema.plan_check import PlanCheckRequest
from api_schema.plan_request import PlanRequest
from api_schema.release import ReleaseRequest
from api_schema.replan import ReplanRequest
from api_schema.replan_answer import MessageRequest
from api_schema.replan_calendars import ReplanCalendarsRequest
from api_schema.report import TripReportRequest
from api_schema.stress_request import StressTestRequest

ADDRESSES: Mapping[type[BaseModel], str] = {
    PlanRequest: "POST /v1/plans",
    PlanCheckRequest: "POST /v1/plan-checks",
    CalendarsRequest: "POST /v1/calendars",
    ComparisonRequest: "POST /v1/comparisons",
    ReplanRequest: "POST /v1/plans/{plan_id}/replans",
    ReplanCalendarsRequest: "POST /v1/plans/{plan_id}/replans/calendars",
    TripReportRequest: "POST /v1/plans/{plan_id}/reports",
    StressTestRequest: "POST /v1/plans/{plan_id}/stress-tests",
    ReleaseRequest: "POST /v1/plans/{plan_id}/release",
    MessageRequest: "POST /v1/messages",
    RouteToStore: "PUT /v1/library/routes/{entry_id}",
    GearListToStore: "PUT /v1/library/gear-lists/{entry_id}",
    MenuToStore: "PUT /v1/library/menus/{entry_id}",
    RosterToStore: "PUT /v1/library/rosters/{entry_id}",
}
"""Where a body of each model is taken."""


@dataclass(frozen=True, slots=True)
class Misplaced:
    """What to do about unknown fields of a whole body, by their names."""

    advice: Mapping[str, str] = field(default_factory=dict)
    held: frozenset[str] = frozenset()
    """Fields that are not missing: they stand inside a wrapper."""


def misplaced(
    model: type[BaseModel], unknown: Mapping[str, object], missing: Collection[str]
) -> Misplaced:
    """What unknown fields at the top of a body say about the whole of it.

    `unknown` has the value of each. `missing` are fields that the model requires.
    """
    address = _other_address(model, frozenset(unknown), frozenset(missing))
    if address is not None:
        return Misplaced(dict.fromkeys(unknown, f"It belongs in the body of {address}."))
    wrappers = {name: held for name, value in unknown.items() if (held := _held(model, value))}
    advice = dict.fromkeys(wrappers, "Take it away: what it holds belongs one level up.")
    return Misplaced(advice, frozenset().union(*wrappers.values()))


def _held(model: type[BaseModel], value: object) -> frozenset[str]:
    """Fields of a model inside a value that is mostly a body of this model."""
    if not isinstance(value, dict):
        return frozenset()
    known = _names(model)
    held = frozenset(name for name in value if name in known)
    needed = _required(model)
    is_one = 2 * len(held) > len(value) and (not needed or bool(held & needed))
    return held if is_one else frozenset()


def _other_address(
    model: type[BaseModel], unknown: frozenset[str], missing: frozenset[str]
) -> str | None:
    """The one address that takes bodies with such fields, None where it is not plain."""
    needed = _required(model)
    there = (_names(model) - missing) | unknown
    # A body that lacks nothing here may have a stray field; more than one tells of another address.
    least = 1 if missing or not needed else 2
    found = [
        address
        for other, address in ADDRESSES.items()
        if other is not model
        and 2 * len(unknown & _names(other)) > len(unknown)
        and _required(other) <= there
        and (len(unknown & _required(other)) >= least if _required(other) else missing == needed)
    ]
    return found[0] if len(found) == 1 else None


def _names(model: type[BaseModel]) -> frozenset[str]:
    return frozenset(one.alias or name for name, one in model.model_fields.items())


def _required(model: type[BaseModel]) -> frozenset[str]:
    return frozenset(
        one.alias or name for name, one in model.model_fields.items() if one.is_required()
    )
