"""Rules on the wire: what a request changes of them. `GET /v1/rules` lists them all."""

from __future__ import annotations

from typing import Annotated, TypeAlias

from pydantic import Field, StringConstraints

from api_schema.quantities import Percent
from api_schema.strict import NUMBER, Reason, StrictModel

RULE_ID_PATTERN = r"^[a-z][a-z0-9_]{0,63}$"

RuleId: TypeAlias = Annotated[
    str, StringConstraints(pattern=RULE_ID_PATTERN), Field(examples=["weather_days_enough"])
]


class StatedCautionRequest(StrictModel):
    """A hard rule that only warns in this plan, because the leader says so in writing."""

    rule_id: RuleId = Field(examples=["total_cap_held"])
    reason: Reason = Field(
        description="Why the leader takes this on. The answer repeats it.",
        examples=["Flat glacier, good visibility, sleds tried with this load last season."],
    )


class RulesRequest(StrictModel):
    """What the request changes of the rules."""

    numbers: dict[RuleId, Annotated[float, Field(ge=-10_000, le=1_000_000), NUMBER]] = Field(
        default={},
        max_length=200,
        description="Numbers of rules that differ from the rulebook's, by their name, each within "
        "its least and most.",
        examples=[{"least_party_people": 2}],
    )
    off: list[RuleId] = Field(
        default=[],
        max_length=200,
        description="Preferences and cautions that are not asked.",
        examples=[["weather_days_enough"]],
    )
    as_caution: list[StatedCautionRequest] = Field(
        default=[],
        max_length=200,
        description="Hard rules that only warn, each with the leader's reason. Some are firm: "
        "`GET /v1/rules` says which, and why.",
    )
    pack_volume_allowance: Percent | None = Field(
        default=None, description="What may be lashed outside beyond a pack's volume."
    )
