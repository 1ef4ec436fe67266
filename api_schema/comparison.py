"""Comparisons on the wire: an expedition and its named variants."""

from __future__ import annotations

from pydantic import Field

from api_schema.choice import ChoiceRequest
from api_schema.named_edit import NamedEdit
from api_schema.plan_request import PlanRequest
from api_schema.roster import PersonRequest
from api_schema.strict import Name, StrictModel

MOST_VARIANTS = 50


class VariantRequest(StrictModel):
    """One variant: a merge patch, named edits, or both. The patch is applied before the edits."""

    name: Name = Field(examples=["without the third"])
    patch: dict[str, object] | None = Field(
        default=None,
        description="A JSON merge patch (RFC 7396) of the base. A list in it replaces the whole "
        "list of the base, and null removes a field, so that its default holds.",
        examples=[{"start_date": "2027-05-22"}],
    )
    edits: list[NamedEdit] = Field(
        default=[],
        max_length=50,
        description="Changes by id, applied in order.",
        examples=[[{"edit": "without", "person_id": "third"}]],
    )


class _Comparison(StrictModel):
    people: list[PersonRequest] = Field(
        default=[], max_length=48, description="People whom the edit `add` may add."
    )
    variants: list[VariantRequest] = Field(min_length=1, max_length=MOST_VARIANTS)
    choose: ChoiceRequest | None = Field(
        default=None,
        description="Asks for the variant with the least or the most of one figure of the table, "
        "with limits on other figures. `chosen` in the answer names it.",
    )


class ComparisonRequest(_Comparison):
    """A base request and its variants. The base is the first row of the table."""

    base: PlanRequest


class ComparisonShape(_Comparison):
    """The same with a base that is read by itself."""

    base: dict[str, object]
