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
    """Limits on the figures of a calendar. They may include the figure to minimise."""

    peak: float | None = Field(default=None, gt=0, le=1, description="As a share of the caps.")
    days: int | None = Field(default=None, ge=1, le=120)
    heavy_person_trips: int | None = Field(default=None, ge=0)


class CalendarsRequest(StrictModel):
    """A request for a plan, and rules for the choice of another calendar.

    Moves outbound, back-carries, and all that comes after the last move stay as given.
    """

    request: PlanRequest
    days: int = Field(ge=1, le=120, description="The most days that a calendar may have.")
    carries: Allowed | None = Field(
        default=None, description="Carries on each leg outbound. If not given, up to 2."
    )
    carries_on: list[AllowedOnLeg] = Field(default_factory=list, max_length=30)
    rests: Allowed | None = Field(
        default=None,
        description="Days without travel at each place, right after the move to it. If not given, "
        "as in the calendar of the request.",
    )
    rests_at: list[AllowedAtPlace] = Field(default_factory=list, max_length=30)
    tolerance: float = Field(
        default=0.005,
        ge=0,
        le=0.1,
        description="The search skips a calendar if it can lower the peak by at most this much.",
    )
    minimise: FigureName = Field(
        default="peak",
        description="The figure that `chosen` makes as low as possible, within `limits`.",
    )
    limits: FigureLimits | None = None
    seconds: int = Field(default=60, ge=2, le=120, description="Time to look for calendars.")
