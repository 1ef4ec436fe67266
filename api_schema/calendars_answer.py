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
    """One calendar, in the form of a request, with figures of its plan."""

    calendar: list[list[str] | CalendarDayAnswer] = Field(
        description="The `calendar` of a request for a plan."
    )
    days: int
    peak: float
    bound: float = Field(description="No plan with this calendar has a lower peak.")
    heavy_person_trips: int = Field(
        description="How many loads are over 90 % of their cap. A person on a trip counts once."
    )
    carries: dict[str, int] = Field(
        description="Carries by leg. A leg is written as from/to.", examples=[{"road/camp-1": 1}]
    )
    rests: dict[str, int] = Field(description="Days without travel after the move, by place.")


class CurvePointAnswer(StrictModel):
    """The calendar with the least peak of all with at most this many days."""

    days: int
    best: CalendarAnswer
    gap: float = Field(
        description="No allowed calendar with at most this many days has a peak that is lower by "
        "more than the gap."
    )
    calmer: CalendarAnswer | None = Field(
        description="A solved calendar with fewer heavy person-trips and a peak at most 0.02 "
        "higher. It is null if there is none."
    )


class CalendarsAnswer(StrictModel):
    """The curve, one that fits the goal, and how far the search went."""

    reference: str | None
    curve: list[CurvePointAnswer]
    chosen: CalendarAnswer | None = Field(
        description="The calendar with the least value of the figure in `minimise`, within "
        "`limits`. It is null if none was found."
    )
    chosen_is_proven: bool = Field(
        description="Whether it is proven that no allowed calendar within the limits has a value "
        "that is lower by more than the tolerance."
    )
    allowed: int = Field(description="How many calendars the rules allow.")
    solved: int = Field(description="How many of them were solved completely.")
    left_open: int = Field(description="How many calendars were still open when the time ended.")
    assumptions: list[AssumptionAnswer]
    cautions: list[CautionAnswer]
