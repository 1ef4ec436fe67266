"""Calendars worth having for the rest of an expedition."""

from typing import Any

from pydantic import Field

from api_schema.common_answer import CautionAnswer
from api_schema.rest_answer import LetGoAnswer, SpentAnswer
from api_schema.strict import StrictModel


class RestCalendarAnswer(StrictModel):
    """One calendar, in the form of a re-plan, with figures of the plan that a re-plan gives."""

    calendar: list[list[str] | dict[str, Any]] = Field(
        description="Send it as `calendar` of the same state to get the plan."
    )
    days: int
    peak: float = Field(
        description="The peak load of the days to come. A re-plan changes as few loads as it can, "
        "up to the peak that people know already, so that a lower peak may be possible."
    )
    gap: float = Field(
        description="No calendar that was not planned, with at most this many days and no more let "
        "go, has a peak that is lower by more than the gap."
    )
    changed_loads: int = Field(
        description="How many loads to come differ from the plan. With more time, a re-plan may "
        "need fewer."
    )
    let_go: list[LetGoAnswer]
    spent: list[SpentAnswer]
    carries: dict[str, int] = Field(
        description="Carries to come by leg. A leg is written as from/to.",
        examples=[{"camp-1/camp-2": 1}],
    )
    rests: dict[str, int] = Field(description="Days without travel to come, by place.")
    is_of_plan: bool = Field(description="Whether it is the calendar of the plan or of the state.")


class RestCalendarsAnswer(StrictModel):
    """Calendars that no other planned one beats in everything. Read `say` first.

    They are compared by the number of things let go, days, peak and changed loads. Those that were
    set aside have no lower peak by more than the tolerance. Some may change fewer loads.
    """

    plan_id: str
    reference: str | None
    say: list[str]
    calendars: list[RestCalendarAnswer] = Field(
        description="Those with the least let go first, then those with the fewest days."
    )
    allowed: int = Field(
        description="How many calendars the rules allow. That of the plan is one of them."
    )
    planned: int = Field(description="How many of them have a plan.")
    without_plan: int = Field(description="How many are shown to have none.")
    set_aside: int = Field(
        description="How many were not planned because another one lets go no more, has no more "
        "days, and has a peak that is at most the tolerance higher."
    )
    left_open: int = Field(description="How many were not decided when the time ended.")
    complete: bool = Field(
        description="Whether each allowed calendar was planned, set aside, or shown to have no "
        "plan. If not, a better one may be among those left open."
    )
    unexplained: list[str] = Field(
        description="What was counted but does not follow from the plan, as in a re-plan."
    )
    cautions: list[CautionAnswer]
