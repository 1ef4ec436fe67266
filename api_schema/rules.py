"""Rules on the wire: what a request changes about them. `GET /v1/rules` lists them all."""

from __future__ import annotations

from typing import Annotated, TypeAlias

from pydantic import Field, StringConstraints

from api_schema.quantities import Percent
from api_schema.strict import NUMBER, Reason, StrictModel

RULE_ID_PATTERN = r"^[a-z][a-z0-9_]{0,63}$"

RuleId: TypeAlias = Annotated[
    str, StringConstraints(pattern=RULE_ID_PATTERN), Field(examples=["weather_days_enough"])
]


class WaiverRequest(StrictModel):
    """A hard rule that the leader waives for this plan, with a reason in writing."""

    rule_id: RuleId = Field(examples=["total_cap_held"])
    reason: Reason = Field(
        description="Why the leader waives this rule. The answer repeats the reason.",
        examples=["Flat glacier, good visibility, sleds tried with this load last season."],
    )


class RulesRequest(StrictModel):
    """What the request changes about the rules."""

    numbers: dict[RuleId, Annotated[float, Field(ge=-10_000, le=1_000_000), NUMBER]] = Field(
        default={},
        max_length=200,
        description="Numbers of rules that replace the rulebook's, by name. Each must be between "
        "the least and the most that the rulebook allows.",
        examples=[{"least_party_people": 2}],
    )
    off: list[RuleId] = Field(
        default=[],
        max_length=200,
        description="Preferences and advisories that are not checked.",
        examples=[["weather_days_enough"]],
    )
    waivers: list[WaiverRequest] = Field(
        default=[],
        max_length=200,
        description="Waivers: hard rules that the leader waives, each with a reason. The check "
        "still reports where they are broken. Firm rules cannot be waived: `GET /v1/rules` says "
        "which are firm, and why.",
    )
    pack_volume_allowance: Percent | None = Field(
        default=None, description="How much may be lashed outside a pack, as a share of its volume."
    )
