"""What the service holds to, on the wire: rules, units and limits."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from api_schema.strict import StrictModel


class RuleAnswer(StrictModel):
    """One rule that plans are made and checked by."""

    rule_id: str = Field(examples=["pack_cap_held"])
    sentence: str = Field(description="What it requires.")
    unit: str = Field(description="The unit of the amounts by which it can be broken.")
    kind: Literal["hard", "preference", "caution"]
    default: str | None = Field(description="The number that it takes where none is given.")
    source_status: str = Field(examples=["common practice, no source"])
    can_be_switched_off: bool


class RulesAnswer(StrictModel):
    """All rules."""

    rules: list[RuleAnswer]


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
