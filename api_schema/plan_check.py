"""Checking a plan on the wire: a request and a plan for it, ours or edited by hand."""

from __future__ import annotations

from pydantic import Field

from api_schema.check_answer import CheckAnswer, CheckedLoadAnswer, PeakAnswer
from api_schema.common_answer import AssumptionAnswer, CautionAnswer
from api_schema.edited_plan import EditedPlan
from api_schema.keeper_answer import KeeperAnswer
from api_schema.plan_request import PlanRequest
from api_schema.strict import StrictModel


class PlanCheckRequest(StrictModel):
    """A request as sent for a plan, and a plan for it."""

    request: PlanRequest
    plan: EditedPlan


class PlanCheckAnswer(StrictModel):
    """What the independent check says about a plan."""

    reference: str | None
    check: CheckAnswer
    peak: PeakAnswer | None = Field(
        description="The peak load. It is null for a plan without loads."
    )
    loads: list[CheckedLoadAnswer] = Field(
        description="Every load on a trip to come, as the check weighed it. The check reads no "
        "totals and no shares of the plan that was sent: after an edit they may be the old ones."
    )
    keepers: list[KeeperAnswer] = Field(
        description="Who has each single piece of shared kit, and each bundle, in this plan."
    )
    assumptions: list[AssumptionAnswer]
    cautions: list[CautionAnswer]
