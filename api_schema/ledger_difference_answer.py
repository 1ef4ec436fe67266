"""What differs between the ledgers of two plans on the wire: loads, and what is taken along."""

from __future__ import annotations

from pydantic import Field

from api_schema.strict import StrictModel


class LoadDifferenceAnswer(StrictModel):
    """One person's gross load on one trip, where the plans differ by 1 g or more."""

    person_id: str
    day: int
    step: int
    from_place: str
    to_place: str
    from_kg: float | None = Field(description="Null if the first plan has no such load.")
    to_kg: float | None = Field(description="Null if the second plan has no such load.")
    change_kg: float


class TakenDifferenceAnswer(StrictModel):
    """One kind of thing, if the plans take different numbers of it."""

    unit_id: str
    thing: str
    kind: str
    from_count: int
    to_count: int
    change_kg: float
