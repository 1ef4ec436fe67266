"""A stress test on the wire: which blows to try on a solved plan."""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias

from pydantic import ConfigDict, Field

from api_schema.strict import NUMBER, WHOLE, StrictModel

BlowKindName = Literal["storm", "sled", "pack", "cache", "stove", "person"]
Chance: TypeAlias = Annotated[float, Field(ge=0, le=1), NUMBER]
ReserveKindName = Literal["storm", "descent", "base_wait", "evacuation"]

ALL_BLOWS: list[BlowKindName] = ["storm", "sled", "pack", "cache", "stove", "person"]


class StormChanceRequest(StrictModel):
    """The weather of one place, as the caller sees it."""

    place: str = Field(max_length=64, examples=["camp-2"])
    share: Annotated[float, Field(ge=0, lt=1), NUMBER] = Field(
        description="Share of days with storm.", examples=[0.2]
    )
    mean_days: Annotated[float, Field(ge=1, le=60), NUMBER] | None = Field(
        default=None,
        description="How many days a storm lasts on average. If not given, the weather of a day "
        "does not depend on the day before.",
        examples=[2.5],
    )


class LossChanceRequest(StrictModel):
    """The chance that the reserve of a place is lost, to birds or ice."""

    place: str = Field(max_length=64, examples=["camp-2"])
    chance: Chance = Field(examples=[0.05])


class SpoiltChanceRequest(StrictModel):
    """The chance that a night set of a place is spoilt, each set by itself."""

    place: str = Field(max_length=64, examples=["camp-2"])
    chance: Chance = Field(examples=[0.03])


class SlowChanceRequest(StrictModel):
    """The chance that nobody gets over a leg on a day: they come back and try again the day after.

    The direction does not matter.
    """

    model_config = ConfigDict(validate_by_name=True)

    from_: str = Field(alias="from", max_length=64, examples=["camp-1"])
    to: str = Field(max_length=64, examples=["camp-2"])
    chance: Annotated[float, Field(ge=0, le=0.99), NUMBER] = Field(examples=[0.1])


class OddsRequest(StrictModel):
    """Chances that the caller gives. Tests with the same seed have the same weather."""

    storms: list[StormChanceRequest] = Field(
        min_length=1, max_length=60, description="Places that are not named are calm."
    )
    lost: list[LossChanceRequest] = Field(default=[], max_length=60)
    spoilt: list[SpoiltChanceRequest] = Field(
        default=[],
        max_length=60,
        description="Night sets that turn out spoilt where they are eaten. Sets in reserve take "
        "their place.",
    )
    slow: list[SlowChanceRequest] = Field(
        default=[],
        max_length=60,
        description="Legs that may cost another day, for deep snow or crevasses.",
    )
    scenarios: Annotated[int, Field(ge=1000, le=50000), WHOLE] = Field(
        default=20000, description="How many scenarios are drawn."
    )
    seed: Annotated[int, Field(ge=0, le=2**31), WHOLE] = 1


class StressTestRequest(StrictModel):
    """Which blows to try. Each blow comes alone, on every day but the last."""

    kinds: list[BlowKindName] = Field(
        default=ALL_BLOWS,
        min_length=1,
        max_length=6,
        description="`storm`: everybody waits from the morning on. Each of the others is one loss: "
        "a sled that breaks, the contents of a pack or of a cache, a stove, or a carrier. That "
        "carrier is a person who can carry only their own water, lunch, layers and vital kit, and "
        "hauls no sled.",
    )
    storm_nights: list[Annotated[int, Field(ge=1, le=14), WHOLE]] = Field(
        default=[1, 2],
        min_length=1,
        max_length=5,
        description="How long storms last, in nights.",
    )
    may_use: list[ReserveKindName] = Field(
        default=["storm"],
        max_length=4,
        description="Kinds of reserves that a re-plan may give up if it must. If a blow is "
        "survived in this way, the answer says how many nights of which reserve it uses.",
    )
    seconds: Annotated[int, Field(ge=2, le=600), WHOLE] = Field(
        default=60,
        description="Time for the test in seconds, at most what the service allows for a solve. "
        "What is open then is `not_settled`.",
    )
    odds: OddsRequest | None = Field(
        default=None, description="Ask for the chances that food, fuel and the summit hold."
    )
