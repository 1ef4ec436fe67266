"""Calendars worth having: the trade-off of days against the peak load."""

from pydantic import Field

from api_schema.common_answer import AssumptionAnswer, CautionAnswer
from api_schema.strict import StrictModel


class CalendarDayAnswer(StrictModel):
    """A day with times or a note, as a request says it."""

    places: list[str]
    start: str | None
    turn_round: str | None
    note: str | None


class CalendarAnswer(StrictModel):
    """One calendar, as a request can take it, with what its plan comes to."""

    calendar: list[list[str] | CalendarDayAnswer] = Field(
        description="The `calendar` of a request for a plan."
    )
    days: int
    peak: float
    bound: float = Field(description="No plan with this calendar has a lower peak.")
    heavy_person_trips: int = Field(
        description="On how many trips of a person a load is over 90 % of a cap."
    )
    carries: dict[str, int] = Field(
        description="Carries by leg, as from and to with a slash.", examples=[{"road/camp-1": 1}]
    )
    rests: dict[str, int] = Field(description="Days without travel after the move, by place.")


class CurvePointAnswer(StrictModel):
    """The calendar with the least peak of those with no more days."""

    days: int
    best: CalendarAnswer
    gap: float = Field(
        description="No calendar that the rules allow, with no more days, has a peak "
        "lower than this one's by more than the gap."
    )
    calmer: CalendarAnswer | None = Field(
        description="One with fewer heavy person-trips and a peak at most 0.02 higher, of those "
        "that were solved."
    )


class CalendarsAnswer(StrictModel):
    """The curve, one that fits the goal, and how far the search went."""

    reference: str | None
    curve: list[CurvePointAnswer]
    chosen: CalendarAnswer | None = Field(
        description="The calendar with the least of the figure asked for, within the limits. It "
        "is null if none was found."
    )
    chosen_is_proven: bool = Field(
        description="Whether no calendar that the rules allow has less of it within the limits, "
        "by more than the tolerance."
    )
    allowed: int = Field(description="How many calendars the rules allow.")
    solved: int = Field(description="How many of them were solved whole.")
    left_open: int = Field(description="How many were not looked at when the time ended.")
    assumptions: list[AssumptionAnswer]
    cautions: list[CautionAnswer]
