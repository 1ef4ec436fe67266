"""Why each fuel container is taken along, on the wire."""

from __future__ import annotations

from pydantic import Field

from api_schema.strict import StrictModel


class WithoutOneAnswer(StrictModel):
    """What breaks first if one of these containers stays at home."""

    rule_id: str
    message: str
    amount: int
    unit: str


class ContainerAnswer(StrictModel):
    """Full containers of one kind with the same reason."""

    unit_id: str = Field(examples=["all/bottle"])
    container_id: str
    cook_group: str
    count: int = Field(description="How many containers have this reason.")
    opened_day: int | None = Field(
        description="They are opened on the night of this day. `null`: they stay full, as a "
        "reserve."
    )
    opened_at: str | None = Field(description="The place where they are opened.")
    without_one: WithoutOneAnswer | None = Field(
        description="What breaks first without one of them. The service leaves one out of the plan "
        "and checks the rules. `null`: nothing breaks."
    )
    lighter: list[str] = Field(
        description="Lighter containers of the same list. Any one of them could replace it. Empty "
        "for containers that are opened, because the order of the list decides about those."
    )
    say: str = Field(description="The same in one sentence.")
