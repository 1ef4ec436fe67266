"""Requirements that clash, and what the nearest plan breaks of them."""

from pydantic import Field

from api_schema.strict import StrictModel


class ClashMemberAnswer(StrictModel):
    """One of the requirements that clash, with its numbers."""

    rule_id: str
    message: str
    pointer: str | None = Field(
        description="The part of the request that it is about, as a JSON Pointer.",
        examples=["/roster/2/pack_cap"],
    )
    person_ids: list[str] = Field(description="Whose caps it is about.")
    unit_ids: list[str] = Field(description="The things that it is about.")
    where: dict[str, str | int] = Field(
        description="Where it holds. It has the day, step, place and person that apply."
    )
    amount: int | None = Field(
        description="How much this requirement alone would have to change if loads could be "
        "divided. It is null if it can only be dropped as a whole."
    )
    unit: str | None = Field(examples=["g"])
    is_needed: bool = Field(
        description="Whether a plan was found that keeps all the other requirements of the clash."
    )


class BreakageAnswer(StrictModel):
    """One rule that the nearest plan breaks, and by how much."""

    rule_id: str
    message: str
    amount: int
    unit: str
    where: dict[str, str | int]
