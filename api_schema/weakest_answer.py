"""What the people with the least cap carry compared with the party, on the wire."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from api_schema.strict import StrictModel


class WeakestAnswer(StrictModel):
    """Mean load fractions over all loads, and why the weakest people carry more, if they do."""

    person_ids: list[str] = Field(
        description="Who has the least pack cap, or load limit if that is less."
    )
    cap_kg: float = Field(description="That cap or limit.")
    mean_share: float = Field(description="Their mean load fraction.")
    party_mean_share: float = Field(description="The mean load fraction of all loads.")
    own_share: float = Field(
        description="The mean load fraction of their own kit, the units pinned to them, water, "
        "lunch and an empty sled, without anything else."
    )
    reason: Literal["not_above", "own_kit", "no_hand_over", "later_goals"] = Field(
        description="Why their mean is above the party's. `not_above`: it is not above. `own_kit`: "
        "what only they may carry is already more. `no_hand_over`: others have room for some "
        "units, but the hard rules forbid each hand-over (the heaviest units were tried). "
        "`later_goals`: a hand-over is possible, but fewer broken preferences and fewer swaps "
        "come first."
    )
    say: str = Field(description="The same in words.")
