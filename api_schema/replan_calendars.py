"""Which calendars may be chosen from on the way, from what was counted."""

from typing import Annotated

from pydantic import Field

from api_schema.calendars_request import (
    Allowed,
    AllowedAtPlace,
    AllowedOnLeg,
    CalendarSeconds,
    Tolerance,
)
from api_schema.replan import ReplanRequest
from api_schema.strict import WHOLE, StrictModel


class ReplanCalendarsRequest(StrictModel):
    """What was counted, and rules for the choice of the days to come.

    The days that are over stay. Moves outbound, back-carries, and all that comes after the last
    move stay as in the calendar of the plan, or of the `state`.
    """

    state: ReplanRequest = Field(
        description="As for a re-plan, without `wait_nights` and without `evacuation`."
    )
    days: Annotated[int, Field(ge=1, le=60), WHOLE] = Field(
        description="The most days of the whole calendar, with those that are over."
    )
    carries: Allowed | None = Field(
        default=None, description="Carries on each leg outbound. If not given, up to 1."
    )
    carries_on: list[AllowedOnLeg] = Field(default_factory=list, max_length=30)
    rests: Allowed | None = Field(
        default=None,
        description="Days without travel to come, where everybody is now and right after each "
        "move. If not given, up to 1.",
    )
    rests_at: list[AllowedAtPlace] = Field(default_factory=list, max_length=30)
    tolerance: Tolerance = Field(
        default=0.005,
        description="The search does not plan a calendar if another one lets go no more, has no "
        "more days, and has a peak that is at most this much higher.",
    )
    seconds: CalendarSeconds = Field(default=60, description="Time to plan the calendars.")
