"""What a plan costs by the prices of its request, by kind of thing."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from api_schema.strict import StrictModel

CostKindName = Literal["food", "fuel", "gear", "sled", "flight"]


class KindCostAnswer(StrictModel):
    """What things of one kind cost."""

    kind: CostKindName
    total: str | None = Field(
        description="The sum for things with a price. It is null if none has one.",
        examples=["612.00"],
    )
    priced: int = Field(description="How many different things have a price.")
    without_price: int = Field(
        description="How many different things have none. They are not in the total. Own gear "
        "needs none."
    )


class CostsAnswer(StrictModel):
    """Sums of prices, in one currency. Each sum is a decimal number, written as text."""

    currency: str = Field(examples=["EUR"])
    total: str = Field(description="The sum for all things with a price.", examples=["2890.40"])
    kinds: list[KindCostAnswer]
