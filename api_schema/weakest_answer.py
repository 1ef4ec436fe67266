"""What whoever has the least cap carries beside the party, on the wire."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from api_schema.strict import StrictModel


class WeakestAnswer(StrictModel):
    """Mean load fractions over all loads of the plan, and why the weakest carry more if they do."""

    person_ids: list[str] = Field(
        description="Who has the least pack cap, or load limit if that is less."
    )
    cap_kg: float = Field(description="That cap or limit.")
    mean_share: float = Field(description="Their mean load fraction.")
    party_mean_share: float = Field(description="The mean load fraction of all loads.")
    own_share: float = Field(
        description="What their own kit, what is pinned to them, water, lunch and an empty sled "
        "come to by themselves, as a mean load fraction."
    )
    reason: Literal["not_above", "own_kit", "no_hand_over", "later_goals"] = Field(
        description="Why their mean is above the party's. `not_above`: it is not. `own_kit`: what "
        "nobody else may carry comes to more by itself. `no_hand_over`: none of the units that "
        "others have room for can go to them under the hard rules; the heaviest were tried. "
        "`later_goals`: one can, but fewer preferences broken and fewer swaps come first."
    )
    say: str = Field(description="The same in words.")
