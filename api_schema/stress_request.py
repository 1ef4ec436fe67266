"""A stress test on the wire: what may strike a solved plan, and for how long to look."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from api_schema.strict import StrictModel

BlowKindName = Literal["storm", "sled", "pack", "cache", "stove", "person"]
ReserveKindName = Literal["storm", "descent", "base_wait", "evacuation"]

ALL_BLOWS: list[BlowKindName] = ["storm", "sled", "pack", "cache", "stove", "person"]


class StressTestRequest(StrictModel):
    """What to strike a plan with. Each blow comes alone, on every day but the last."""

    kinds: list[BlowKindName] = Field(
        default=ALL_BLOWS,
        min_length=1,
        max_length=6,
        description="`storm`: everybody waits from the morning on. The others are one thing lost: "
        "a sled that breaks, the contents of a pack or of a cache, a stove, or a person who can "
        "carry no more than own water, lunch, layers and vital kit, and hauls no sled.",
    )
    storm_nights: list[Annotated[int, Field(ge=1, le=14)]] = Field(
        default=[1, 2],
        min_length=1,
        max_length=5,
        description="How long storms last, in nights.",
    )
    may_use: list[ReserveKindName] = Field(
        default=["storm"],
        max_length=4,
        description="Kinds of reserves that a re-plan may give up where it must. A blow that is "
        "survived so says which nights of which reserve it takes.",
    )
    seconds: Annotated[int, Field(ge=2, le=600)] = Field(
        default=60,
        description="Time for the test in seconds, at most what the service allows for a solve. "
        "What is open then is `not_settled`.",
    )
