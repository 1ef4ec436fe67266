"""Which calendars may be chosen from, and what is asked of them."""

from typing import Literal

from pydantic import Field

from api_schema.plan_request import PlanRequest
from api_schema.strict import Id, StrictModel

FigureName = Literal["peak", "days", "heavy_person_trips"]


class Allowed(StrictModel):
    """From how many to how many."""

    least: int = Field(default=0, ge=0, le=4)
    most: int = Field(ge=0, le=4)


class AllowedOnLeg(Allowed):
    """Carries on one leg, outbound."""

    from_: Id = Field(alias="from")
    to: Id


class AllowedAtPlace(Allowed):
    """Days without travel at one place, right after the move to it: for rest or weather."""

    place: Id


class FigureLimits(StrictModel):
    """Limits on figures of the table; those of the goal and of the others."""

    peak: float | None = Field(default=None, gt=0, le=1, description="As a share of the caps.")
    days: int | None = Field(default=None, ge=1, le=120)
    heavy_person_trips: int | None = Field(default=None, ge=0)


class CalendarsRequest(StrictModel):
    """A request for a plan, and the rules by which its calendar may be chosen anew.

    Moves outbound, back-carries, and all that comes after the last move stay as given.
    """

    request: PlanRequest
    days: int = Field(ge=1, le=120, description="How many days there are at most.")
    carries: Allowed | None = Field(
        default=None, description="Carries on each leg outbound. Up to 2 if not given."
    )
    carries_on: list[AllowedOnLeg] = Field(default_factory=list, max_length=30)
    rests: Allowed | None = Field(
        default=None,
        description="Days without travel at each place, right after the move to it. As in the "
        "request's calendar if not given.",
    )
    rests_at: list[AllowedAtPlace] = Field(default_factory=list, max_length=30)
    tolerance: float = Field(
        default=0.005,
        ge=0,
        le=0.1,
        description="A calendar is not solved if its peak can be lower by no more than this.",
    )
    minimise: FigureName = Field(
        default="peak", description="The figure that `chosen` has least of, within `limits`."
    )
    limits: FigureLimits | None = None
    seconds: int = Field(default=60, ge=2, le=120, description="Time to look for calendars.")
