"""The line of plans of an expedition that is under way, and messages about it."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Field, StringConstraints

from api_schema.report_answer import TripReportEntryAnswer
from api_schema.strict import Moment, StrictModel


class LineEntryAnswer(StrictModel):
    """One plan of the line."""

    plan_id: str
    former_plan_id: str | None = Field(
        description="The plan of which this is a re-plan. If that one was deleted, it is the plan "
        "before it."
    )
    what_if: bool = Field(
        description="Made only to be looked at. It is false once the plan was released or "
        "re-planned."
    )
    created_at: Moment
    state: str
    outcome_kind: str | None
    day: int | None = Field(description="The day of the count. It is null for the first plan.")
    moment: Literal["morning", "evening"] | None
    say: list[str]
    unexplained: list[str]
    counted: dict[str, Any] | None = Field(description="The count as it was sent.")


class CountAnswer(StrictModel):
    """The count from which a re-plan was made."""

    plan_id: str
    of_plan: str = Field(
        description="The plan that was followed. To make the re-plan again, send `counted` to "
        "`POST /v1/plans/{plan_id}/replans` of this plan, as long as it is stored."
    )
    counted: dict[str, Any] = Field(description="The count as it was sent.")


class HistoryAnswer(StrictModel):
    """A plan and the plans from which it was made, the oldest first."""

    plans: list[LineEntryAnswer]
    reports: list[TripReportEntryAnswer] = Field(
        description="What was reported after the expedition on any of these plans, newest first."
    )
    superseded_by: str | None = Field(
        description="The plan that holds now, if it was made or released after this one. It is "
        "null while this plan holds. Which plan was released last for the reference is another "
        "question: `superseded_by` in `GET /v1/plans/{plan_id}/release` answers that."
    )


class MessageRequest(StrictModel):
    """A message of a party, as it came in."""

    text: Annotated[str, StringConstraints(min_length=1, max_length=400)] = Field(
        examples=["K7Q4MR D06EA C03* N1014R F0954 W03Y XCD"]
    )


class MessageAnswer(StrictModel):
    """The answer to a message, once the plan is solved."""

    plan_id: str = Field(description="The plan that was made from the count.")
    of_plan: str
    read_as: list[str] = Field(
        description="What the message says, in words, so that people can check it."
    )
    counted: dict[str, Any] = Field(description="The same, as the body of a re-plan.")
    done: bool
    text: str | None = Field(description="The answer to send, at most 140 characters.")
    say: list[str] = Field(description="The same in words.")


class NumberedAnswer(StrictModel):
    """What a number in a message stands for."""

    number: int
    names: str


class MessageKeyAnswer(StrictModel):
    """The numbers that messages about a plan use. Print it before the expedition leaves."""

    code: str = Field(description="The short code of the plan.")
    places: list[NumberedAnswer]
    people: list[NumberedAnswer]
    sleds: list[NumberedAnswer]
    cook_groups: list[NumberedAnswer]
    night_sets: list[NumberedAnswer] = Field(
        description="Kinds of night sets, counted within each cook group."
    )
