"""What callers can look up, on the wire: rules, units and limits."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from api_schema.strict import Number, StrictModel


class SettingAnswer(StrictModel):
    """A number of a rule that a request may change under `rules.numbers`."""

    name: str = Field(examples=["least_party_people"])
    value: Number = Field(description="The rulebook's value.")
    unit: str = Field(examples=["people"])
    least: Number
    most: Number
    whole: bool = Field(description="Whether the number must be whole.")


class DocumentAnswer(StrictModel):
    """A document in which a rule is read, and what it says there in our words."""

    document_id: str = Field(examples=["altitude-charity"])
    title: str
    publisher: str
    year: int | None = Field(description="The year of publication. It is null if none was seen.")
    section: str | None = Field(description="Where in the document. It is null if not known.")
    says: str
    seen: Literal["read", "quoted", "memory"] = Field(
        description="`read`: in the document or a copy. `quoted`: in a text that quotes it. "
        "`memory`: nobody has opened it."
    )


class RuleAnswer(StrictModel):
    """One rule by which requests or plans are checked."""

    rule_id: str = Field(examples=["pack_cap_held"])
    sentence: str = Field(description="What the rule requires.")
    unit: str = Field(description="The unit of the amounts by which the rule can be broken.")
    kind: Literal["hard", "preference", "advisory"]
    default: str | None = Field(description="The number that is used if the request gives none.")
    settings: list[SettingAnswer]
    source_status: str = Field(examples=["common practice, no source"])
    documents: list[DocumentAnswer] = Field(
        description="Where the rule is read. It is empty for common practice and arithmetic."
    )
    departs: str | None = Field(
        description="Why the rule differs from a document, or null if it says nothing on that."
    )
    asked_on_glaciers: bool = Field(
        description="Whether the rule is checked only if the request gives the crevasse hazard of "
        "a leg."
    )
    family: Literal["request", "plan"] = Field(
        description="`request`: checked before the search, and the same for every plan. `plan`: "
        "checked for each plan."
    )
    can_be_off: bool
    can_be_waived: bool
    firm_reason: str | None = Field(
        description="Why a hard rule cannot be waived. It is null if it can be waived, and for "
        "preferences and advisories."
    )


class NotARuleAnswer(StrictModel):
    """A practice of guides that has no rule of its own here."""

    statement: str
    reason: str = Field(description="What covers this practice, or why nothing does.")


class RulesAnswer(StrictModel):
    """All rules, and the practices without a rule of their own."""

    deference: str = Field(description="Who and what comes before any rule here.")
    rules: list[RuleAnswer]
    not_rules: list[NotARuleAnswer]


class UnitAnswer(StrictModel):
    """One unit for requests. A value in it, times `factor`, is the value in the base unit."""

    unit: str = Field(examples=["lb"])
    factor: str | None = Field(
        description="A decimal number. It is null if the scale has an offset, as for degF.",
        examples=["453.59237"],
    )
    base_unit: str = Field(examples=["g"])


class DimensionAnswer(StrictModel):
    """One kind of quantity and how to write it."""

    dimension: str = Field(examples=["mass"])
    units: list[UnitAnswer]
    pattern: str = Field(description="The regular expression that the string must match.")
    examples: list[str]


class UnitsAnswer(StrictModel):
    """All units for requests."""

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
