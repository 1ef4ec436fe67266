"""What the service says about itself while it runs."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from api_schema.strict import StrictModel


class HealthAnswer(StrictModel):
    """The service accepts and solves plans."""

    status: Literal["ok"]
    version: str = Field(examples=["0.1.0"])


class ProblemKindAnswer(StrictModel):
    """One kind of problem that an answer can name under `type`."""

    code: str = Field(examples=["invalid_request"])
    status: int = Field(examples=[422])
    title: str
    advice: str = Field(description="What you can do about it.")
