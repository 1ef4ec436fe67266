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
        description="The day whose night they are opened on. `null`: they stay full, as a reserve."
    )
    opened_at: str | None = Field(description="The place where they are opened.")
    without_one: WithoutOneAnswer | None = Field(
        description="What breaks first without one of them: it was left out of the plan, and the "
        "rules were asked. `null`: nothing breaks."
    )
    lighter: list[str] = Field(
        description="Lighter containers of the same list, one of which would do in its place. "
        "Empty for containers that are opened, since the order of the list settles those."
    )
    say: str = Field(description="The same in one sentence.")
