"""Comparisons on the wire: an expedition and its named variants."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from api_schema.choice import ChoiceRequest
from api_schema.named_edit import NamedEdit
from api_schema.plan_request import PlanRequest
from api_schema.roster import PersonRequest
from api_schema.strict import WHOLE, Id, Name, StrictModel

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


class OptionalPeopleRequest(StrictModel):
    """People who may come along or not. Each choice of them is a variant, the fewest first.

    With the variants that you name there may be 50. All others on the roster come along.
    """

    person_ids: list[Id] = Field(
        min_length=1,
        max_length=48,
        description="Of the base's roster, or of the comparison's `people`.",
        examples=[["third", "fourth"]],
    )
    least: Annotated[int, Field(ge=0, le=48), WHOLE] = Field(
        default=0, description="The least number of them who come along."
    )
    most: Annotated[int, Field(ge=0, le=48), WHOLE] | None = Field(
        default=None, description="The most of them who come along. If not given, all."
    )


class _Comparison(StrictModel):
    people: list[PersonRequest] = Field(
        default=[],
        max_length=48,
        description="People whom the edit `add` or `optional_people` may add.",
    )
    variants: list[VariantRequest] = Field(default=[], max_length=MOST_VARIANTS)
    optional_people: OptionalPeopleRequest | None = Field(
        default=None,
        description="Makes variants of the choices among these people. With `choose` the answer "
        "names the one with the fewest people.",
    )
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
