"""What the service holds to, on the wire: rules, units and limits."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from api_schema.strict import StrictModel


class SettingAnswer(StrictModel):
    """A number of a rule that a request may change under `rules.numbers`."""

    name: str = Field(examples=["least_party_people"])
    value: float = Field(description="The rulebook's.")
    unit: str = Field(examples=["people"])
    least: float
    most: float
    whole: bool = Field(description="Whether it has no fraction.")


class RuleAnswer(StrictModel):
    """One rule that requests and plans are checked by."""

    rule_id: str = Field(examples=["pack_cap_held"])
    sentence: str = Field(description="What it requires.")
    unit: str = Field(description="The unit of the amounts by which it can be broken.")
    kind: Literal["hard", "preference", "caution"]
    default: str | None = Field(description="The number that it takes where none is given.")
    settings: list[SettingAnswer]
    source_status: str = Field(examples=["common practice, no source"])
    asked_on_glaciers: bool = Field(
        description="Whether it is asked only where a leg says its crevasse hazard."
    )
    family: Literal["request", "plan"] = Field(
        description="`request`: settled before a plan is sought, and the same for every plan. "
        "`plan`: asked of each plan."
    )
    can_be_off: bool
    can_be_caution: bool
    firm_reason: str | None = Field(
        description="Why a hard rule cannot be stated as a caution; null where it can, and for "
        "preferences and cautions."
    )


class NotARuleAnswer(StrictModel):
    """Something that guides hold to and that is no rule of its own here."""

    statement: str
    reason: str = Field(description="What serves it, or why nothing does.")


class RulesAnswer(StrictModel):
    """All rules, and what is none."""

    deference: str = Field(description="Who and what comes before any rule here.")
    rules: list[RuleAnswer]
    not_rules: list[NotARuleAnswer]


class UnitAnswer(StrictModel):
    """One unit taken in requests; a value in it is `factor` times that in the base unit."""

    unit: str = Field(examples=["lb"])
    factor: str | None = Field(
        description="As a decimal; null where the scale has an offset, as for degF.",
        examples=["453.59237"],
    )
    base_unit: str = Field(examples=["g"])


class DimensionAnswer(StrictModel):
    """One kind of quantity and how it is written."""

    dimension: str = Field(examples=["mass"])
    units: list[UnitAnswer]
    pattern: str = Field(description="The regular expression that the string matches.")
    examples: list[str]


class UnitsAnswer(StrictModel):
    """All units taken in requests."""

    dimensions: list[DimensionAnswer]


class LimitAnswer(StrictModel):
    """One limit on the size of requests."""

    limit_id: str = Field(examples=["body_bytes"])
    value: int
    unit: str = Field(examples=["bytes"])
    description: str


class LimitsAnswer(StrictModel):
    """All size limits."""

    limits: list[LimitAnswer]
