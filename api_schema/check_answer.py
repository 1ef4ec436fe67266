"""The verdict of the independent check on the wire, and the heaviest load."""

from __future__ import annotations

from typing import Literal

from pydantic import ConfigDict, Field

from api_schema.strict import IsoDate, StrictModel


class PeakAnswer(StrictModel):
    """The largest load fraction of a plan, and where it is."""

    model_config = ConfigDict(validate_by_name=True)

    load_fraction: float
    person_id: str
    day: int
    date: IsoDate | None
    step: int
    from_: str = Field(alias="from")
    to: str
    binding: Literal["pack", "sled", "total", "limit"]


class CheckedLoadAnswer(StrictModel):
    """What one person carries on one trip, as the check weighed it, gross."""

    model_config = ConfigDict(validate_by_name=True)

    day: int
    step: int
    from_: str = Field(alias="from")
    to: str
    person_id: str
    pack_kg: float
    pack_cap_kg: float
    sled_kg: float
    sled_cap_kg: float
    total_kg: float
    load_limit_kg: float | None
    load_fraction: float = Field(description="The largest share of a cap, as in a plan.")
    binding: Literal["pack", "sled", "total", "limit"]


class FindingAnswer(StrictModel):
    """One place where a rule is broken: where, and by how much."""

    rule_id: str
    message: str
    amount: int
    unit: str
    where: dict[str, str | int]
    instead: list[str] = Field(description="Changes that would be allowed, if any are known.")


class RemarkAnswer(FindingAnswer):
    """A preference that is not met, an advisory or a waived rule. The plan is still valid."""

    kind: Literal["preference", "advisory"]
    reason: str | None = Field(
        description="The leader's reason, if this is a hard rule that the request waives. "
        "Otherwise null."
    )


class CheckAnswer(StrictModel):
    """The verdict of the independent check."""

    passed: bool
    rules_checked: int = Field(
        description="The number of rules that were checked for this request and plan."
    )
    findings: list[FindingAnswer] = Field(
        description="The places where hard rules are broken, at most a thousand."
    )
    findings_left_out: int = Field(
        ge=0, description="How many more places were left out. Usually 0."
    )
    remarks: list[RemarkAnswer] = Field(description="At most a thousand.")
    remarks_left_out: int = Field(
        ge=0, description="How many more remarks were left out. Usually 0."
    )
