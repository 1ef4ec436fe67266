"""Shopping on the wire: what to buy and to get ready, and what was assumed about it."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from api_schema.common_answer import CautionAnswer
from api_schema.cost_answer import CostsAnswer
from api_schema.plan_resource import CAUTIONS_FIRST, PlanId
from api_schema.strict import StrictModel
from api_schema.unit_answer import UnitKindName

BasisName = Literal["given", "assumed", "volume_assumed"]

BASIS = (
    "Where mass and volume come from. `given`: both are in the request. `assumed`: both are "
    "defaults. Weigh the thing and plan again. `volume_assumed`: the volume is estimated from the "
    "mass. A request does not say what was weighed."
)


class PurchaseAnswer(StrictModel):
    """One kind of thing to buy or to get ready, with how many."""

    kind: UnitKindName
    thing: str = Field(examples=["night set low"])
    unit_id: str
    cook_group: str | None
    owner: str | None
    count: int = Field(description="How many bags, containers or pieces.")
    night_sets: int | None = Field(description="The night sets in all the bags.")
    fuel_ml: int | None = Field(description="The fuel in all the containers.")
    size_ml: int | None = Field(description="The fuel in one container.")
    each_kg: float
    kg: float
    basis: BasisName = Field(description=BASIS)
    why: str | None = Field(
        description="Why so many fuel containers are taken. It is null for other things."
    )
    price_each: str | None = Field(
        description="What one bag, container or piece costs. Null without a price.",
        examples=["12.50"],
    )
    cost: str | None = Field(description="What all of them cost.", examples=["612.50"])


class PurchasesAnswer(StrictModel):
    """All that a plan takes along, ready for a shopping list."""

    plan_id: PlanId
    reference: str | None
    cautions: list[CautionAnswer] = Field(description=CAUTIONS_FIRST)
    assumed: int = Field(description="How many rows rest on an assumed mass or volume.")
    costs: CostsAnswer | None = Field(
        description="The sums, with flights and sleds. Null if the request gives no price."
    )
    purchases: list[PurchaseAnswer]
