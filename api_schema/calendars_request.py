"""Which calendars may be chosen from, and what is asked of them."""

from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from api_schema.plan_request import PlanRequest
from api_schema.strict import NUMBER, WHOLE, Id, StrictModel

FigureName = Literal["peak", "days", "heavy_person_trips"]
Tolerance: TypeAlias = Annotated[float, Field(ge=0, le=0.1), NUMBER]
CalendarSeconds: TypeAlias = Annotated[int, Field(ge=2, le=120), WHOLE]


class Allowed(StrictModel):
    """From how many to how many."""

    least: Annotated[int, Field(ge=0, le=4), WHOLE] = 0
    most: Annotated[int, Field(ge=0, le=4), WHOLE]


class AllowedOnLeg(Allowed):
    """Carries on one leg, outbound."""

    from_: Id = Field(alias="from")
    to: Id


class AllowedAtPlace(Allowed):
    """Days without travel at one place, right after the move to it: for rest or weather."""

    place: Id


class FigureLimits(StrictModel):
    """Limits on the figures of a calendar. They may include the figure to minimise."""

    peak: Annotated[float, Field(gt=0, le=1), NUMBER] | None = Field(
        default=None, description="As a share of the caps."
    )
    days: Annotated[int, Field(ge=1, le=120), WHOLE] | None = None
    heavy_person_trips: Annotated[int, Field(ge=0), WHOLE] | None = None


class CalendarsRequest(StrictModel):
    """A request for a plan, and rules for the choice of another calendar.

    Moves outbound, back-carries, and all that comes after the last move stay as given.
    """

    request: PlanRequest
    days: Annotated[int, Field(ge=1, le=120), WHOLE] = Field(
        description="The most days that a calendar may have."
    )
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
    tolerance: Tolerance = Field(
        default=0.005,
        description="The search skips a calendar if it can lower the peak by at most this much.",
    )
    minimise: FigureName = Field(
        default="peak",
        description="The figure that `chosen` makes as low as possible, within `limits`.",
    )
    limits: FigureLimits | None = None
    seconds: CalendarSeconds = Field(default=60, description="Time to look for calendars.")
