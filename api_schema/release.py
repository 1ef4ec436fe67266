"""Releasing a plan: which plan of a reference holds, and who answers for it."""

from __future__ import annotations

from pydantic import Field

from api_schema.plan_resource import PlanId
from api_schema.strict import Moment, Name, StrictModel

RELEASE_CURSOR_PATTERN = r"^[1-9][0-9]{0,8}$"


class ReleaseRequest(StrictModel):
    """Who releases a plan."""

    released_by: Name = Field(
        description="The name or the role of the person who answers for the plan.",
        examples=["operations desk"],
    )


class ReleaseAnswer(StrictModel):
    """One release of a plan. The newest of a reference holds and supersedes the earlier ones."""

    plan_id: PlanId
    reference: str
    release_number: int = Field(ge=1, description="Counted from 1 within the reference.")
    released_by: str
    key_id: str | None = Field(description="The key that the request came with, if any.")
    released_at: Moment
    outcome_digest: str = Field(
        description="SHA-256, in hexadecimal, of the plan's outcome as the service stores it.",
        pattern=r"^[0-9a-f]{64}$",
    )
    superseded_by: PlanId | None = Field(
        description="Another plan that was released later and holds for the reference now. It is "
        "null while this plan holds, also by a later release of its own. Re-plans that nobody "
        "released do not count here: `superseded_by` in `GET /v1/plans/{plan_id}/history` names "
        "those."
    )
    holds: bool = Field(
        description="Whether this is the newest release of the reference, the one that holds."
    )


class ReleaseListAnswer(StrictModel):
    """One page of the releases of one reference, newest first."""

    releases: list[ReleaseAnswer] = Field(max_length=100)
    next_cursor: str | None = Field(
        description="Send this as `cursor` to get earlier releases. It is null at the end."
    )
