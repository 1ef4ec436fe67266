"""What one blow on any day does to a plan. The stored test can be read while it runs."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from api_schema.common_answer import CautionAnswer
from api_schema.plan_resource import PlanId, PlanStateName
from api_schema.stress_request import BlowKindName, ReserveKindName
from api_schema.strict import Moment, StrictModel

STRESS_TEST_ID_PATTERN = r"^stress_[0-9a-hjkmnp-tv-z]{26}$"

StressTestId = Annotated[
    str, Field(pattern=STRESS_TEST_ID_PATTERN, examples=["stress_01m894y1x3y07966fb6kk0wj7j"])
]
VerdictName = Literal["stands", "after_replan", "no", "not_settled"]


class ReserveUsedAnswer(StrictModel):
    """The nights of one reserve that the party needs to survive the blow."""

    kind: ReserveKindName
    place: str
    cook_group: str
    nights: int = Field(description="Nights used.")
    nights_left: int = Field(description="Nights that are left of it.")


class BlowAnswer(StrictModel):
    """One blow and what it does to the plan."""

    kind: BlowKindName
    day: int = Field(
        description="A loss happens on the evening of this day. A storm begins on the morning "
        "after."
    )
    places: list[str] = Field(description="The places that it concerns.")
    thing: str | None = Field(description="The sled, the unit, the cache, or whose pack.")
    nights: int | None = Field(description="How long a storm lasts, in nights.")
    verdict: VerdictName = Field(
        description="`stands`: the plan goes on without what is gone. `after_replan`: another plan "
        "of the rest keeps every rule. `no`: no plan does. `not_settled`: the time was too short "
        "to decide."
    )
    why: str | None = Field(description="What keeps the plan from standing as it is, or at all.")
    reserves_used: list[ReserveUsedAnswer]
    same_as_before: bool = Field(
        description="Whether an earlier blow in the list leaves the same state. Then both were "
        "settled together."
    )


class VerdictCountsAnswer(StrictModel):
    """How many blows have each verdict."""

    stands: int
    after_replan: int
    no: int
    not_settled: int


class OneMoreAnswer(StrictModel):
    """What one more of a thing would help on the weakest day."""

    thing: str = Field(description="A unit, or the cook group that gets one more night.")
    night_of_food_and_fuel: bool = Field(
        description="Whether it is one more night of food and fuel rather than one more unit."
    )
    helps: int = Field(
        description="How many blows no plan survives now, but a plan survives with one more."
    )
    not_settled: int = Field(description="How many blows the time was too short to decide.")


class WeakestDayAnswer(StrictModel):
    """The day with most blows that no plan survives."""

    day: int
    no: int
    not_settled: int
    after_replan: int
    one_more: list[OneMoreAnswer] = Field(description="What would help, the most helpful first.")


class ChanceAnswer(StrictModel):
    """In what share of the scenarios something holds."""

    chance: float = Field(description="Share of the scenarios.")
    standard_error: float
    low: float = Field(description="Lower end of Wilson's interval of 95 %.")
    high: float = Field(description="Upper end of the same interval.")


class ReserveWorthAnswer(StrictModel):
    """How much one more night of food and fuel at a place would help."""

    place: str
    gain: float = Field(
        description="How much the chance that everything holds rises, in the same scenarios."
    )
    standard_error: float


class GroupOddsAnswer(StrictModel):
    """The odds of one cook group under the chances in the request."""

    cook_group: str
    scenarios: int
    food: ChanceAnswer
    fuel: ChanceAnswer
    summit: ChanceAnswer | None = Field(description="It is null where no summit is planned.")
    everything: ChanceAnswer
    one_more_night: list[ReserveWorthAnswer] = Field(description="What helps most comes first.")


class StressResultAnswer(StrictModel):
    """The result of a stress test."""

    outcome: Literal["stress_tested"]
    states: int = Field(description="The number of different states that the blows leave.")
    states_not_settled: int = Field(
        description="How many of these states the time was too short to decide."
    )
    counts: VerdictCountsAnswer
    weakest_day: WeakestDayAnswer | None = Field(
        description="It is null if the plan stands after every blow."
    )
    blows: list[BlowAnswer]
    odds: list[GroupOddsAnswer] | None = Field(
        description="By cook group. It is null where no chances were given."
    )
    cautions: list[CautionAnswer]


class StressFailureAnswer(StrictModel):
    """Our failure, with a stable code."""

    code: str
    detail: str


class StressProgressAnswer(StrictModel):
    """How far a running test has come."""

    settled: int
    states: int


class StressTestEntryAnswer(StrictModel):
    """A stress test as it stands in a list."""

    stress_test_id: StressTestId
    plan_id: PlanId
    reference: str | None
    state: PlanStateName
    created_at: Moment
    finished_at: Moment | None


class StressTestListAnswer(StrictModel):
    """One page of the stress tests of a plan, newest first."""

    stress_tests: list[StressTestEntryAnswer] = Field(max_length=100)
    next_cursor: str | None = Field(
        description="Send this as `cursor` to get the next tests. It is null at the end."
    )


class StressTestAnswer(StrictModel):
    """A stress test with everything that is known about it now."""

    stress_test_id: StressTestId
    plan_id: PlanId
    reference: str | None
    state: PlanStateName
    created_at: Moment
    finished_at: Moment | None
    progress: StressProgressAnswer | None
    result: StressResultAnswer | None = Field(description="It is null until the state is done.")
    failure: StressFailureAnswer | None = Field(description="It is null unless the test failed.")
